import { given } from '@rillmark/casebook/entry/given.ts'
import { betweenSteps, isResidual, UNIT_OF } from '@rillmark/casebook/fieldwork/instruments.ts'
import type { ReadingValue } from '@rillmark/casebook/fieldwork/kinds.ts'
import { residualTest } from '@rillmark/casebook/fieldwork/residual-test.ts'
import { type ReactNode, useEffect } from 'react'
import { Note } from '../kit/Note.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { readTypedNumber } from '../kit/typed-number.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { DoseVerdicts, shortDoses } from './DoseVerdicts.tsx'
import { InstrumentChoice, useInstrument } from './InstrumentChoice.tsx'
import { StepFrame } from './StepFrame.tsx'
import type { StepProps } from './step-props.ts'
import { useStop, useWriting } from './stop-tools.tsx'

const HOW = [
  { id: 'value', label: 'as shown' },
  { id: 'below', label: 'below what it can show' },
  { id: 'above', label: 'above what it can show' },
] as const
type How = (typeof HOW)[number]['id']

/** One reading of pH or residual: the test that fits, the instrument of the day, the value; for a residual also what it means for the bottles. */
export function ReadingStep({ step, draft, day }: StepProps): ReactNode {
  const { at, plan } = useStop()
  const { state } = useInvestigation()
  const writing = useWriting()
  const quantity = step.quantity ?? 'ph'
  const { chosen, choices } = useInstrument(quantity, day)
  const [valueField, howField] = [`${step.key} value`, `${step.key} how`]
  const { forget } = writing
  useEffect(forget, [forget, draft.get(valueField), draft.get(howField), chosen?.instrument.code])
  const how = HOW.find(({ id }) => id === draft.get(howField))?.id ?? 'value'
  const reading = readingOf({ how, typed: draft.get(valueField), range: chosen?.instrument, unit: UNIT_OF[quantity] })
  const short =
    reading !== undefined && isResidual(quantity) ? shortDoses({ visit: plan.visit, reading, quantity }) : []
  const keep = async (): Promise<void> => {
    if (reading === undefined) return
    const by = given({ circuit: step.circuit, component: plan.stop.component, instrument: chosen?.instrument.code })
    const reason = 'neutralizer missing or short'
    const kept = await writing.writeAll([
      { kind: 'reading.taken', body: { ...at, quantity, reading, ...by } },
      ...short.map(({ label, words }) => ({
        kind: 'deviation.recorded' as const,
        body: { ...at, label, reason, text: words } as const,
      })),
    ])
    if (!kept) return
    draft.set({ [valueField]: '', [howField]: '' })
  }
  const unit = UNIT_OF[quantity] === 'mg/L' ? 'mg/L' : undefined
  const between = reading === undefined || chosen === undefined ? undefined : betweenSteps(chosen.instrument, reading)
  return (
    <StepFrame
      step={step}
      writing={writing}
      act={{
        label: keepWords(reading, short.length),
        onPress: () => void keep(),
        disabled: reading === undefined || (chosen === undefined && (isResidual(quantity) || choices.length > 0)),
      }}
    >
      {isResidual(quantity) && <p className="field-why">Because {residualTest(state).reason}.</p>}
      {how === 'value' && (
        <div className="field-big-input">
          <NumberField
            label="Reading"
            unit={unit}
            min={0}
            value={draft.get(valueField)}
            onChange={(text) => draft.set({ [valueField]: text })}
          />
        </div>
      )}
      {between !== undefined && <Note kind="warn">{between}. Is that what it shows?</Note>}
      <InstrumentChoice quantity={quantity} day={day} />
      {chosen !== undefined && (
        <RadioRow
          label="It shows"
          labelHidden
          value={how}
          onChange={(next: How) => draft.set({ [howField]: next })}
          choices={HOW}
          stacked
        />
      )}
      {reading !== undefined && isResidual(quantity) && (
        <DoseVerdicts visit={plan.visit} reading={reading} quantity={quantity} />
      )}
    </StepFrame>
  )
}

function readingOf(of: {
  how: How
  typed: string
  range: { rangeMin: number; rangeMax: number } | undefined
  unit: ReadingValue['unit']
}): ReadingValue | undefined {
  const { how, range, unit } = of
  if (how === 'value') {
    const read = readTypedNumber(of.typed)
    return read.kind === 'number' ? { kind: 'value', value: read.value, unit } : undefined
  }
  if (range === undefined) return undefined
  return { kind: how, limit: how === 'below' ? range.rangeMin : range.rangeMax, unit }
}

function keepWords(reading: ReadingValue | undefined, short: number): string {
  if (reading === undefined) return 'Keep the reading'
  const unit = reading.unit === 'mg/L' ? ' mg/L' : ''
  const amount = reading.kind === 'value' ? `${reading.value}${unit}` : `${reading.kind} ${reading.limit}${unit}`
  return short === 0 ? `Keep ${amount}` : `Keep ${amount}, record short dose`
}
