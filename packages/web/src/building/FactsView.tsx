import type { KnownBy } from '@rillmark/casebook/building/water-system.ts'
import type { ReactNode } from 'react'
import { KnownMenu } from './KnownTag.tsx'

export interface FactLine {
  /** The fact of the record. */
  readonly name: string
  readonly label: string
  readonly value: string
  readonly known: KnownBy | undefined
}

/** What is said of a thing, each fact with how it is known. */
export function FactsView(props: {
  readonly facts: readonly FactLine[]
  readonly onKnown: (fact: string, known: KnownBy) => void
}): ReactNode {
  return (
    <dl className="known-facts">
      {props.facts.map(({ name, label, value, known }) => (
        <div key={name}>
          <dt>{label}</dt>
          <dd>{value}</dd>
          <dd>
            <KnownMenu fact={label} known={known} onChoose={(next) => props.onKnown(name, next)} />
          </dd>
        </div>
      ))}
    </dl>
  )
}
