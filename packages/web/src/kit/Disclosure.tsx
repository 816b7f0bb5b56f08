import type { ReactNode } from 'react'

/** Detail kept folded until wanted: a working, a source, a long reason. */
export function Disclosure(props: {
  readonly summary: ReactNode
  readonly children: ReactNode
  readonly open?: boolean
}): ReactNode {
  return (
    <details className="disclosure" open={props.open}>
      <summary>{props.summary}</summary>
      <div className="disclosure-body">{props.children}</div>
    </details>
  )
}
