import { type Calculation, cautionsOf } from '@rillmark/science/catalogue/descriptor.ts'
import { type ReactNode, useMemo } from 'react'
import { fieldsOf, type NamedField } from '../form/field-spec.ts'
import { labelAt } from '../form/label-at.ts'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Caution } from '../kit/Caution.tsx'
import { Progress } from '../kit/Progress.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { Run } from './calculation-run.ts'
import { readableResult } from './result-rows.ts'
import { ResultTables } from './ResultTables.tsx'

export interface ResultBodyProps {
  readonly calculation: Calculation
  readonly fields: readonly NamedField[]
  readonly run: Run
}

/** What came out, with its cautions; or what is still needed. */
export function ResultBody({ calculation, fields, run }: ResultBodyProps): ReactNode {
  const cautions = run.kind === 'worked' ? cautionsOf(calculation, run.worked) : calculation.cautions
  return (
    <>
      <div className="stack" aria-live="polite">
        {run.kind === 'worked' && <ResultValues calculation={calculation} result={run.worked.result} />}
        {run.kind === 'open' && <StillOpen run={run} fields={fields} />}
        {run.kind === 'stopped' && <Stopped run={run} />}
      </div>
      {run.kind === 'running' && (
        <Progress
          label="Calculating"
          detail={run.fraction === undefined ? undefined : `${Math.floor(run.fraction * 100)} %`}
          fraction={run.fraction}
          onCancel={run.stop}
        />
      )}
      {cautions.map((caution) => (
        <Caution key={caution}>{caution}</Caution>
      ))}
    </>
  )
}

interface ResultValuesProps {
  readonly calculation: Calculation
  readonly result: Readonly<Record<string, unknown>>
}

/** A result by the names and in the units people read it. */
export function ResultValues({ calculation, result }: ResultValuesProps): ReactNode {
  const { units } = usePreferences()
  const fields = useMemo(() => fieldsOf(calculation.output), [calculation])
  const { rows, tables } = readableResult({ fields, values: result, units })
  return (
    <>
      <dl className="calc-result">
        {rows.map(({ path, label, words, hint }) => (
          <div key={path} className={words.length > LONG_WORDS ? 'calc-result-long' : undefined}>
            <dt>
              {label}
              {hint !== '' && <span className="faint calc-result-hint">{hint}</span>}
            </dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <ResultTables tables={tables} />
    </>
  )
}

function Stopped({ run }: { run: Extract<Run, { kind: 'stopped' }> }): ReactNode {
  return (
    <>
      <p>
        {run.failed
          ? 'This device could not finish the calculation: ask for less, or close other pages.'
          : 'The calculation was stopped.'}
      </p>
      <ButtonRow>
        <Button onPress={run.again}>Calculate again</Button>
      </ButtonRow>
    </>
  )
}

/** Longer values stand below their name. */
const LONG_WORDS = 40

function StillOpen({ run, fields }: { run: Extract<Run, { kind: 'open' }>; fields: readonly NamedField[] }): ReactNode {
  const missing = run.missing.map((path) => labelAt(fields, path).label).filter((label) => label !== '')
  return (
    <>
      {missing.length > 0 && (
        <div>
          <p>Still needed:</p>
          <ul className="calc-needed">
            {missing.slice(0, MOST_NAMED).map((label) => (
              <li key={label}>{label}</li>
            ))}
            <More of={missing.length} />
          </ul>
        </div>
      )}
      {run.wrong.length > 0 && (
        <div>
          <p>Another value is needed:</p>
          <ul className="calc-needed">
            {run.wrong.slice(0, MOST_NAMED).map(({ path, expected, received }) => (
              <li key={`${path} ${expected}`}>
                {path === '' ? 'These figures together' : labelAt(fields, path).label}: expected {expected}, received{' '}
                {received}
              </li>
            ))}
            <More of={run.wrong.length} />
          </ul>
        </div>
      )}
    </>
  )
}

/** A table with a wrong column has something wrong in every row. */
const MOST_NAMED = 12

function More({ of }: { readonly of: number }): ReactNode {
  return of > MOST_NAMED ? <li>and {of - MOST_NAMED} more</li> : null
}
