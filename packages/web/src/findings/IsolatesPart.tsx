import type { Focus } from '@rillmark/casebook/findings/focus-rows.ts'
import {
  type Agreement,
  isolateComparisons,
  type IsolateComparison,
  LEVELS,
} from '@rillmark/casebook/findings/isolate-ladder.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Section } from '../kit/Section.tsx'
import { Tag } from '../kit/Tag.tsx'
import { useDerived } from '../store/investigation.tsx'

const comparisonsIn = (state: InvestigationState) => isolateComparisons(state)
const isolatesIn = ({ results }: InvestigationState) => ({
  ofCases: [...results.isolates.values()].filter(({ body }) => body.from.origin === 'case').length,
  ofSamples: [...results.isolates.values()].filter(({ body }) => body.from.origin === 'sample').length,
})

/** Isolates of cases beside isolates of samples, rung by rung, with a sentence that claims no more than was compared. */
export function IsolatesPart({ onFocus }: { readonly onFocus: (focus: Focus) => void }): ReactNode {
  const comparisons = useDerived(comparisonsIn)
  const { ofCases, ofSamples } = useDerived(isolatesIn)
  if (ofCases === 0 && ofSamples === 0) return null
  if (comparisons.length === 0)
    return (
      <Section title="Isolates side by side">
        <p className="quiet">
          {ofCases === 0
            ? 'No isolate of a case is recorded, so no comparison is possible.'
            : 'No isolate of a sample is recorded yet, so nothing can be compared.'}
        </p>
      </Section>
    )
  return (
    <Section title="Isolates side by side" aside={`${ofCases} of cases, ${ofSamples} of samples`}>
      <DataTable
        caption="Each isolate of a case beside each isolate of a sample"
        captionHidden
        rows={comparisons}
        rowId={idOf}
        onSelect={(id) => {
          const found = comparisons.find((comparison) => idOf(comparison) === id)
          if (found?.sampleIsolate.body.from.origin === 'sample')
            onFocus({
              kind: 'samples',
              words: `Isolate ${found.sampleIsolate.body.code}`,
              labels: [found.sampleIsolate.body.from.label],
            })
        }}
        columns={[
          { id: 'pair', head: 'Case and sample', cell: (pair) => <PairCell pair={pair} /> },
          ...LEVELS.map((level) => ({
            id: level,
            head: level,
            cell: ({ rungs }: IsolateComparison) => <Rung agreement={rungs[level]} />,
          })),
        ]}
      />
      <ul className="sentences">
        {comparisons.map((pair) => (
          <li key={idOf(pair)}>
            <b>
              {pair.caseIsolate.body.code} and {pair.sampleIsolate.body.code}.
            </b>{' '}
            {pair.sentence}
          </li>
        ))}
      </ul>
    </Section>
  )
}

const RUNGS = {
  same: { shape: 'full', kind: 'accent' },
  different: { shape: 'cross', kind: 'plain' },
  'not compared': { shape: 'dash', kind: 'faint' },
} as const

function Rung({ agreement }: { readonly agreement: Agreement }): ReactNode {
  return (
    <Tag shape={RUNGS[agreement].shape} kind={RUNGS[agreement].kind}>
      {agreement}
    </Tag>
  )
}

function PairCell({ pair }: { readonly pair: IsolateComparison }): ReactNode {
  const { caseIsolate, sampleIsolate } = pair
  const from = (isolate: typeof caseIsolate): string =>
    isolate.body.from.origin === 'case' ? `case ${isolate.body.from.caseCode}` : isolate.body.from.label
  return (
    <span className="sample-place">
      <span>
        {caseIsolate.body.code} · {sampleIsolate.body.code}
      </span>
      <span className="faint">
        {from(caseIsolate)}, {from(sampleIsolate)}
      </span>
    </span>
  )
}

function idOf({ caseIsolate, sampleIsolate }: IsolateComparison): string {
  return `${caseIsolate.body.code} ${sampleIsolate.body.code}`
}
