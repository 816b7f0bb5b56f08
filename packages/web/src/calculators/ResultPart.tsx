import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { fieldsOf, type NamedField } from '../form/field-spec.ts'
import { labelAt } from '../form/label-at.ts'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Caution } from '../kit/Caution.tsx'
import { Progress } from '../kit/Progress.tsx'
import { Section } from '../kit/Section.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { Run } from './calculation-run.ts'
import { useAround } from './CalculatorLink.tsx'
import { RecordThis } from './RecordThis.tsx'
import { readableResult } from './result-rows.ts'
import { ResultTables } from './ResultTables.tsx'
import { workingText, type Worked } from './working.ts'

interface ResultPartProps {
  readonly calculation: Calculation
  readonly fields: readonly NamedField[]
  readonly run: Run
}

/** What came out, with its cautions beside it; or what is still needed. */
export function ResultPart({ calculation, fields, run }: ResultPartProps): ReactNode {
  return (
    <Section title="Result">
      <div className="stack" aria-live="polite">
        {run.kind === 'worked' && <Values calculation={calculation} worked={run.worked} />}
        {run.kind === 'open' && <StillOpen run={run} fields={fields} />}
        {run.kind === 'stopped' && <Stopped run={run} />}
      </div>
      {run.kind === 'running' && <Progress label="Calculating" fraction={run.fraction} onCancel={run.stop} />}
      {calculation.cautions.map((caution) => (
        <Caution key={caution}>{caution}</Caution>
      ))}
      {run.kind === 'worked' && <Acts calculation={calculation} worked={run.worked} />}
    </Section>
  )
}

function Values({ calculation, worked }: { calculation: Calculation; worked: Worked }): ReactNode {
  const { units } = usePreferences()
  const fields = useMemo(() => fieldsOf(calculation.output), [calculation])
  const { rows, tables } = readableResult({ fields, values: worked.result, units })
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
            {missing.map((label) => (
              <li key={label}>{label}</li>
            ))}
          </ul>
        </div>
      )}
      {run.wrong.length > 0 && (
        <div>
          <p>Another value is needed:</p>
          <ul className="calc-needed">
            {run.wrong.map(({ path, expected, received }) => (
              <li key={`${path} ${expected}`}>
                {path === '' ? 'These figures together' : labelAt(fields, path).label}: expected {expected}, received{' '}
                {received}
              </li>
            ))}
          </ul>
        </div>
      )}
    </>
  )
}

function Acts({ calculation, worked }: { calculation: Calculation; worked: Worked }): ReactNode {
  const { units } = usePreferences()
  const { say } = useToasts()
  const [byHand, setByHand] = useState(false)
  const around = useAround()
  const text = workingText(calculation, { worked, units })
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(text)
      say('Result, working and sources were copied as text.')
    } catch {
      setByHand(true)
    }
  }
  return (
    <>
      <ButtonRow>
        {around !== undefined && <RecordThis calculation={calculation} worked={worked} working={text} />}
        <Button onPress={() => void copy()}>Copy as text</Button>
      </ButtonRow>
      {byHand && (
        <TextArea
          label="The browser does not let this page copy: select all of this and copy it"
          value={text}
          onChange={() => undefined}
          rows={10}
          mono
        />
      )}
    </>
  )
}
