import { given } from '@rillmark/casebook/entry/given.ts'
import { neutralizerCheck, prescribedDose, residualExpected } from '@rillmark/casebook/fieldwork/neutralizer-check.ts'
import { residualTest } from '@rillmark/casebook/fieldwork/residual-test.ts'
import type { ReactNode } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import { DateField } from '../kit/DateField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Note } from '../kit/Note.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { TextField } from '../kit/TextField.tsx'
import { readTypedNumber } from '../kit/typed-number.ts'
import { useInvestigation } from '../store/investigation.tsx'
import type { DraftHandle } from './drafts.ts'
import { StepFrame } from './StepFrame.tsx'
import type { StepProps } from './step-props.ts'
import { stepNames, useStop, useWriting } from './stop-tools.tsx'
import { localDay } from '../store/local-time.ts'

/** The volume a bottle is filled to where neither plan nor procedure says: a litre. */
const LITRE_ML = 1000

/** Neutralizer into the bottle: the dose, its lot and date (remembered for the day), held against the residual that is expected here. */
export function NeutralizeStep({ step, draft, day }: StepProps): ReactNode {
  const { at } = useStop()
  const writing = useWriting()
  const inBottle = step.step.dose?.unit.startsWith('mL') === true
  const dose = doseTyped({ step, draft })
  const useBefore = useBeforeOf(day)
  const over = useBefore !== undefined && useBefore < localDay()
  const done = async (): Promise<void> => {
    const lot = day.get('neutralizer lot').trim()
    const words = [
      inBottle && dose !== undefined ? `${dose.volumeMl} mL of ${dose.normality} N` : undefined,
      lot === '' ? undefined : `lot ${lot}`,
      useBefore === undefined ? undefined : `use before ${useBefore}`,
    ]
    const said = words.filter((one) => one !== undefined).join(', ')
    const notes = said === '' ? {} : { notes: said }
    const names = { ...at, ...stepNames(step) }
    const text = `The solution was past its date: ${said}`
    const deviation = { ...names, reason: 'neutralizer missing or short', text } as const
    await writing.writeAll([
      { kind: 'step.done', body: { ...names, ...notes } },
      ...(over ? [{ kind: 'deviation.recorded' as const, body: deviation }] : []),
    ])
  }
  return (
    <StepFrame
      step={step}
      writing={writing}
      act={{
        label: `${inBottle ? (dose === undefined ? 'Type the dose' : `${dose.volumeMl} mL is in`) : 'The drop is in'}${over ? ', past its date' : ''}`,
        onPress: () => void done(),
        disabled: inBottle && dose === undefined,
      }}
    >
      {inBottle && (
        <NumberField
          label={`Put in, of ${dose?.normality ?? ''} N solution`}
          unit="mL"
          min={0}
          value={draft.get(doseField(step.key)) || String(dose?.volumeMl ?? '')}
          onChange={(text) => draft.set({ [doseField(step.key)]: text })}
        />
      )}
      {inBottle && dose !== undefined && (
        <Expected normality={dose.normality} volumeMl={dose.volumeMl} sampleMl={dose.sampleMl} />
      )}
      <Lot day={day} />
    </StepFrame>
  )
}

export const doseField = (key: string): string => `${key} dose`

interface DoseTyped {
  readonly normality: number
  readonly volumeMl: number
  readonly sampleMl: number
}

/** The dose as typed, or else as the procedure prescribes it for the bottle. */
function doseTyped({ step, draft }: { step: StepProps['step']; draft: DraftHandle }): DoseTyped | undefined {
  const sampleMl = step.sample?.volumeMl ?? LITRE_ML
  const prescribed = prescribedDose(step.follows, sampleMl)
  if (prescribed === undefined) return undefined
  const typed = draft.get(doseField(step.key))
  const read = readTypedNumber(typed === '' ? String(prescribed.solutionVolumeMl) : typed)
  if (read.kind !== 'number' || read.value < 0) return undefined
  return { normality: prescribed.solutionNormality, volumeMl: read.value, sampleMl }
}

function Expected({
  normality,
  volumeMl,
  sampleMl,
}: {
  readonly normality: number
  readonly volumeMl: number
  readonly sampleMl: number
}): ReactNode {
  const { at } = useStop()
  const { state } = useInvestigation()
  const expected = residualExpected(state, at.round)
  const verdict = neutralizerCheck({
    dose: { solutionNormality: normality, solutionVolumeMl: volumeMl },
    sampleVolumeMl: sampleMl,
    residual: expected === undefined ? undefined : { kind: 'value', value: expected.mgPerL, unit: 'mg/L' },
    residualKind: residualTest(state).quantity,
    on: localDay(),
  })
  const working = (
    <CalculatorLink
      id="neutralizer"
      figures={given({
        residualMgPerL: expected?.mgPerL,
        residualKind: residualTest(state).quantity,
        sampleVolumeMl: sampleMl,
        solutionNormality: normality,
        solutionVolumeMl: volumeMl,
      })}
    >
      Working
    </CalculatorLink>
  )
  const covers = `${volumeMl} mL covers ${verdict.capacityMgPerL.toFixed(2)} mg/L in ${sampleMl} mL.`
  if (expected === undefined)
    return (
      <Note>
        {covers} No residual is known yet. {working}
      </Note>
    )
  const where =
    expected.from === 'described supply' ? 'The supply is described with' : 'The highest measured in this round is'
  if (verdict.covers !== 'short')
    return (
      <Note>
        {covers} {where} {expected.mgPerL} mg/L. {working}
      </Note>
    )
  const needed = (Math.ceil((verdict.requiredVolumeMl ?? 0) * 10 - 1e-9) / 10).toFixed(1)
  return (
    <Note kind="warn">
      {covers} {where} {expected.mgPerL} mg/L: put in {needed} mL. {working}
    </Note>
  )
}

/** The last day of the solution, where it was typed whole. */
export function useBeforeOf(day: DraftHandle): string | undefined {
  const expiresOn = day.get('neutralizer expires')
  return /^\d{4}-\d\d-\d\d$/.test(expiresOn) ? expiresOn : undefined
}

/** Lot and date of the solution: typed once, offered again at every stop of the day. */
function Lot({ day }: { readonly day: DraftHandle }): ReactNode {
  const expiresOn = day.get('neutralizer expires')
  const useBefore = useBeforeOf(day)
  return (
    <>
      <FormRow>
        <TextField
          label="Lot of the neutralizer"
          width="narrow"
          value={day.get('neutralizer lot')}
          onChange={(lot) => day.set({ 'neutralizer lot': lot })}
        />
        <DateField label="Use before" value={expiresOn} onChange={(date) => day.set({ 'neutralizer expires': date })} />
      </FormRow>
      {useBefore !== undefined && useBefore < localDay() && (
        <Note kind="warn">Its date is over. Take a fresh one. Used all the same, it is recorded as a deviation.</Note>
      )}
    </>
  )
}
