import type { ReactNode } from 'react'
import { usePageTitle } from '../shell/usePageTitle.ts'

export interface PageHeadProps {
  /** The screen's answer in one line, or its name. */
  readonly title: string
  readonly lead?: ReactNode
  readonly actions?: ReactNode
  /** For the window title when `title` is a whole sentence. */
  readonly name?: string | undefined
}

/** Head of a screen; also names the window. Every screen starts with one. */
export function PageHead(props: PageHeadProps): ReactNode {
  usePageTitle(props.name ?? props.title)
  return (
    <header className="page-head">
      <div className="page-head-words">
        <h1>{props.title}</h1>
        {props.lead !== undefined && <p className="page-lead">{props.lead}</p>}
      </div>
      {props.actions !== undefined && <div className="button-row">{props.actions}</div>}
    </header>
  )
}
