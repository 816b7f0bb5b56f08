import type { ReactNode } from 'react'

export interface SplitProps {
  readonly children: ReactNode
  readonly aside: ReactNode
  /** Name of the right part, for those who jump by landmarks. */
  readonly asideLabel: string
  /** Shows the aside above the main part on a phone. */
  readonly asideFirstOnPhone?: boolean | undefined
}

/** Main part and aside, each scrolling by itself at the desk; one below the other on a phone. */
export function Split(props: SplitProps): ReactNode {
  return (
    <div className="split" data-aside-first={props.asideFirstOnPhone || undefined}>
      <div className="split-main">{props.children}</div>
      <aside className="split-aside" aria-label={props.asideLabel}>
        {props.aside}
      </aside>
    </div>
  )
}
