import type { MeasureView } from '@rillmark/casebook/control/control-view.ts'
import { MEASURES_REFERENCE, referenceFor } from '@rillmark/casebook/control/reference-measures.ts'
import { amountWords } from '@rillmark/casebook/control/target-words.ts'
import type { ReactNode } from 'react'
import { Caution } from '../kit/Caution.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { useWriting } from '../store/use-writing.ts'
import type { RecordedCalculation } from './recorded-calculation.ts'
import { CalculationPart } from './CalculationPart.tsx'
import { calculationsFor } from './calculations-for.ts'

/** What is known of one measure: who, when, target, the caution of the act, and the reckoning it rests on. */
export function MeasureSide({ view }: { readonly view: MeasureView }): ReactNode {
  const { body } = view.measure.ordered
  const { completed } = view.measure
  const { units } = usePreferences()
  const { against, cautions } = referenceFor(body.measure)
  const discharges = calculationsFor(body.measure).some(({ id }) => id === 'dechlorination')
  return (
    <>
      <h2>{view.title}</h2>
      <KeyValue
        facts={[
          { key: 'Stage', value: body.stage },
          { key: 'Who', value: body.owner },
          { key: 'By', value: body.dueOn ?? 'no date' },
          { key: 'Target', value: body.target === undefined ? 'none' : amountWords(body.target, units) },
          { key: 'Places', value: view.places.length === 0 ? 'the whole system' : String(view.places.length) },
          ...(completed === undefined ? [] : [{ key: completed.body.outcome, value: completed.body.completedOn }]),
        ]}
      />
      {completed?.body.reason !== undefined && <p className="quiet">{completed.body.reason}</p>}
      {body.notes !== undefined && body.notes !== '' && <p className="quiet">{body.notes}</p>}
      {completed === undefined && (
        <>
          {cautions.map(({ text }) => (
            <Caution key={text}>{text}</Caution>
          ))}
          {discharges && <Caution>{MEASURES_REFERENCE.discharge.text}</Caution>}
        </>
      )}
      {against.length > 0 && (
        <Disclosure summary="What speaks against it, and where figures differ">
          <ul className="control-list">
            {against.map(({ text, source }) => (
              <li key={text}>
                {text} <span className="control-source">{source}.</span>
              </li>
            ))}
          </ul>
        </Disclosure>
      )}
      <Reckonings view={view} />
    </>
  )
}

/** Recording a calculation amends the order, with both versions kept. */
function Reckonings({ view }: { readonly view: MeasureView }): ReactNode {
  const { issues, write } = useWriting()
  const { body, id } = view.measure.ordered
  if (calculationsFor(body.measure).length === 0 && body.calculation === undefined) return null
  const record = ({ id: calculation, input, result }: RecordedCalculation): void => {
    const corrects = { entry: id, reason: `${calculation} reckoned` }
    void write('measure.ordered', { ...body, calculation: { id: calculation, input, result } }, { corrects })
  }
  return (
    <Section title="Reckoning">
      <ProblemList problems={issues} />
      <CalculationPart
        key={id}
        measure={body.measure}
        target={body.target}
        recorded={body.calculation}
        onRecord={view.measure.completed === undefined ? record : undefined}
      />
    </Section>
  )
}
