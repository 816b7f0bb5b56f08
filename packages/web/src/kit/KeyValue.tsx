import type { ReactNode } from 'react'

export interface Fact {
  readonly key: string
  readonly value: ReactNode
  /** How it is known, or a remark, in small words. */
  readonly note?: ReactNode
}

/** Facts by name. */
export function KeyValue({ facts }: { readonly facts: readonly Fact[] }): ReactNode {
  return (
    <dl className="facts">
      {facts.map((fact) => (
        <div key={fact.key} className="fact">
          <dt>{fact.key}</dt>
          <dd>
            {fact.value}
            {fact.note !== undefined && <span className="faint"> {fact.note}</span>}
          </dd>
        </div>
      ))}
    </dl>
  )
}
