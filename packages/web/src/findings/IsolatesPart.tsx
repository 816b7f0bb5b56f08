import type { Focus } from '@rillmark/casebook/findings/focus-rows.ts'
import { isolateComparisons, type IsolateComparison, LEVELS } from '@rillmark/casebook/findings/isolate-ladder.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
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
      <ul className="pairs">
        {comparisons.map((pair) => (
          <PairBlock key={idOf(pair)} pair={pair} onFocus={onFocus} />
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

function PairBlock({
  pair,
  onFocus,
}: {
  readonly pair: IsolateComparison
  readonly onFocus: (focus: Focus) => void
}): ReactNode {
  const { caseIsolate, sampleIsolate, rungs, sentence } = pair
  const { from } = sampleIsolate.body
  const words = `${originOf(caseIsolate)} (${caseIsolate.body.code}) and ${originOf(sampleIsolate)} (${sampleIsolate.body.code})`
  const show = (): void => {
    if (from.origin === 'sample')
      onFocus({ kind: 'samples', words: `Isolate ${sampleIsolate.body.code}`, labels: [from.label] })
  }
  return (
    <li>
      <Button kind="text" onPress={show}>
        {words}
      </Button>
      <span className="rungs">
        {LEVELS.map((level) => (
          <Tag key={level} shape={RUNGS[rungs[level]].shape} kind={RUNGS[rungs[level]].kind}>
            {level}: {rungs[level]}
          </Tag>
        ))}
      </span>
      <p className="quiet">{sentence}</p>
    </li>
  )
}

function originOf({ body }: IsolateComparison['caseIsolate']): string {
  return body.from.origin === 'case' ? `Case ${body.from.caseCode}` : `sample ${body.from.label}`
}

function idOf({ caseIsolate, sampleIsolate }: IsolateComparison): string {
  return `${caseIsolate.body.code} ${sampleIsolate.body.code}`
}
