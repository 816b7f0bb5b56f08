import { type ReactNode, useId } from 'react'

export interface SectionProps {
  readonly title: string
  readonly children: ReactNode
  /** Small words or acts at the right of the title. */
  readonly aside?: ReactNode
  readonly id?: string | undefined
}

/** A titled part of a screen, parted from the one before by a fine line. */
export function Section(props: SectionProps): ReactNode {
  const titleId = useId()
  return (
    <section className="section" aria-labelledby={titleId} id={props.id}>
      <div className="section-head">
        <h2 id={titleId}>{props.title}</h2>
        {props.aside !== undefined && <div className="section-aside">{props.aside}</div>}
      </div>
      {props.children}
    </section>
  )
}
