import { findCalculation, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation as Descriptor } from '@rillmark/science/catalogue/descriptor.ts'
import { fieldRows } from '@rillmark/science/catalogue/field-rows.ts'
import { type ReactNode, useState } from 'react'
import { type Draft, groupDraft, valueOf } from '../form/draft.ts'
import { fieldsOf } from '../form/field-spec.ts'
import { SchemaForm } from '../form/SchemaForm.tsx'
import { Button } from '../kit/Button.tsx'
import { Caution } from '../kit/Caution.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { figureWords } from './figure-words.ts'

export interface RecordedCalculation {
  readonly id: string
  readonly input: unknown
  readonly result: unknown
}

/** One calculation with its form, its answer as it is typed, its working, and the act of recording it. */
export function Calculation(props: {
  readonly id: string
  readonly start?: unknown
  readonly onRecord: (calculation: RecordedCalculation) => void
  readonly recordWords: string
}): ReactNode {
  const calculation = findCalculation(props.id)
  return calculation === undefined ? null : <Reckoning {...props} calculation={calculation} />
}

function Reckoning(props: {
  readonly calculation: Descriptor
  readonly start?: unknown
  readonly onRecord: (calculation: RecordedCalculation) => void
  readonly recordWords: string
}): ReactNode {
  const { calculation } = props
  const [fields] = useState(() => fieldsOf(calculation.input))
  const [draft, setDraft] = useState<{ readonly [name: string]: Draft }>(() => groupDraft(fields, props.start))
  const input = valueOf({ kind: 'group', fields }, draft)
  const answer = runCalculation({ id: calculation.id, input })
  const issues = 'issues' in answer ? answer.issues : []
  // while a field is still empty nothing is wrong with it yet
  const typed = issues.filter(({ received }) => received !== 'nothing')
  return (
    <div className="stack">
      <SchemaForm
        fields={fields}
        draft={draft}
        onChange={setDraft}
        issueAt={(path) => issueText(typed.find((each) => each.path === path)?.expected)}
      />
      {'issues' in answer ? (
        <p className="quiet">
          {typed.length === 0 ? 'Fill in the fields; the answer appears here.' : 'Mend the fields above for an answer.'}
        </p>
      ) : (
        <>
          <Answer calculation={calculation} result={answer.result} />
          <div>
            <Button onPress={() => props.onRecord({ id: calculation.id, input, result: answer.result })}>
              {props.recordWords}
            </Button>
          </div>
        </>
      )}
      {calculation.cautions.slice(0, 1).map((text) => (
        <Caution key={text}>{text}</Caution>
      ))}
      <Working calculation={calculation} />
    </div>
  )
}

const issueText = (expected: string | undefined): string | undefined =>
  expected === undefined ? undefined : `Expected ${expected}.`

/** A result by the names and units of its descriptor. */
export function Answer(props: { readonly calculation: Descriptor; readonly result: unknown }): ReactNode {
  const { calculation, result } = props
  const values: Record<string, unknown> = typeof result === 'object' && result !== null ? { ...result } : {}
  const rows = fieldRows(calculation.output).filter(({ path }) => !path.includes('.') && values[path] !== undefined)
  const facts = rows.flatMap(({ path, description }) => {
    const words = figureWords(values[path], calculation.units[path])
    return words === undefined ? [] : [{ key: description.replace(/ \([^)]*\)$/, ''), value: <b>{words}</b> }]
  })
  return <KeyValue facts={facts} />
}

function Working({ calculation }: { readonly calculation: Descriptor }): ReactNode {
  return (
    <Disclosure summary="Working and sources">
      <p className="mono">{calculation.formula.text}</p>
      <p>
        {Object.entries(calculation.formula.symbols)
          .map(([symbol, meaning]) => `${symbol}: ${meaning}`)
          .join(' · ')}
      </p>
      <ul className="control-list">
        {calculation.sources.map((source) => (
          <li key={source.id}>
            {source.citation}
            {source.known === 'memory' && ' (from memory, verify before use)'}
          </li>
        ))}
      </ul>
      {calculation.cautions.slice(1).map((text) => (
        <p key={text}>{text}</p>
      ))}
    </Disclosure>
  )
}
