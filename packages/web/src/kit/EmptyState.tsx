import type { ReactNode } from 'react'

/** What this place will hold, why it is empty, and the next step. */
export function EmptyState(props: {
  readonly title: string
  readonly children: ReactNode
  readonly action?: ReactNode
}): ReactNode {
  return (
    <div className="empty">
      <h2>{props.title}</h2>
      <div className="empty-text">{props.children}</div>
      {props.action !== undefined && <div className="button-row">{props.action}</div>}
    </div>
  )
}
