import type { ReactNode } from 'react'

export interface Reason {
  readonly id: string
  /** '+' speaks for, '−' speaks against, a number ranks, '·' just lists. */
  readonly mark: string
  readonly children: ReactNode
}

/** What speaks for and against, or ranked lines, each with its mark in the margin. */
export function ReasonList({ reasons }: { readonly reasons: readonly Reason[] }): ReactNode {
  return (
    <ul className="reasons">
      {reasons.map((reason) => (
        <li key={reason.id}>
          <span className="reason-mark">{reason.mark}</span>
          <span>{reason.children}</span>
        </li>
      ))}
    </ul>
  )
}
