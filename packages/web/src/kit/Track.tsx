import type { ReactNode } from 'react'

/** How far along a short run of steps one is: 'step 5 of 7'. */
export function Track({
  done,
  of,
  label,
}: {
  readonly done: number
  readonly of: number
  readonly label: string
}): ReactNode {
  return (
    <div className="track" role="img" aria-label={label}>
      {Array.from({ length: of }, (_, index) => (
        // oxlint-disable-next-line react/no-array-index-key -- the steps of a track have no other name
        <span key={index} data-state={index < done ? 'done' : index === done ? 'here' : 'ahead'} />
      ))}
    </div>
  )
}
