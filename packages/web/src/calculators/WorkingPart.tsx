import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import type { Source } from '@rillmark/science/catalogue/sources.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Section } from '../kit/Section.tsx'
import { Tag } from '../kit/Tag.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { KNOWN_WORDS, type SymbolRow, symbolRows, type Worked } from './working.ts'

/** The formula, each symbol named, and the figures put in. */
export function WorkingPart(props: {
  readonly calculation: Calculation
  readonly worked: Worked | undefined
}): ReactNode {
  const { units } = usePreferences()
  const { calculation, worked } = props
  const rows = symbolRows(calculation, { worked: worked ?? { input: {}, result: {} }, units })
  return (
    <Section title="Working">
      <div className="calc-working">
        <p className="calc-formula mono">{calculation.formula.text}</p>
        <DataTable
          caption={worked === undefined ? 'Symbols' : 'Symbols, with the figures of this calculation'}
          rows={rows}
          rowId={({ symbol }) => symbol}
          columns={[
            {
              id: 'symbol',
              head: 'Symbol',
              cell: ({ symbol }) => <span className="mono">{symbol}</span>,
              width: '7rem',
            },
            { id: 'stands', head: 'Stands for', cell: ({ standsFor }) => standsFor },
            ...(worked === undefined
              ? []
              : [{ id: 'value', head: 'Here', cell: ({ value }: SymbolRow) => value, numeric: true }]),
          ]}
        />
      </div>
    </Section>
  )
}

const KNOWN_SHAPES = { seen: 'full', computed: 'half', memory: 'dashed' } as const

/** Where the method and its constants come from, and how each is known. */
export function SourcesPart({ sources }: { readonly sources: readonly Source[] }): ReactNode {
  return (
    <Section title="Sources">
      <ul className="calc-sources">
        {sources.map(({ id, citation, known }) => (
          <li key={id}>
            <span>{citation}</span>
            <Tag shape={KNOWN_SHAPES[known]} kind={known === 'memory' ? 'warn' : 'faint'}>
              {KNOWN_WORDS[known]}
            </Tag>
          </li>
        ))}
      </ul>
    </Section>
  )
}
