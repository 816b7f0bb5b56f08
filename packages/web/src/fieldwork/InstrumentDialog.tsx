import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { MEASURED_BY, UNIT_OF } from '@rillmark/casebook/fieldwork/instruments.ts'
import type { ReadingQuantity } from '@rillmark/casebook/fieldwork/kinds.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { DateField } from '../kit/DateField.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { QuantityField } from '../form/QuantityField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { useInvestigation } from '../store/investigation.tsx'
import type { DraftHandle } from './drafts.ts'
import { useDraft } from './use-draft.ts'
import { NotKept, useWriting } from './stop-tools.tsx'
import { isTicked, Ticks } from './Ticks.tsx'

type Kind = BodyOf<'instrument.registered'>['kind']

const KINDS: readonly Kind[] = ['thermometer', 'pH meter', 'pH strip', 'chlorine kit']
const UNIT_WORDS = { Cel: '°C', '[pH]': 'pH', 'mg/L': 'mg/L' } as const
export const QUANTITY_WORDS: Readonly<Record<ReadingQuantity, string>> = {
  'hot-temperature': 'hot water temperature',
  'cold-temperature': 'cold water temperature',
  ph: 'pH',
  'free-chlorine': 'free chlorine',
  'total-chlorine': 'total chlorine',
}

type InstrumentForm = Readonly<Record<'code' | 'min' | 'max' | 'step' | 'calibratedOn' | 'due', string>> & {
  readonly kind: Kind
}

/** Registers an instrument: what it measures, how far and how finely, and until when its calibration holds. */
export function InstrumentDialog(props: {
  readonly quantity?: ReadingQuantity | undefined
  /** with the code of the instrument that was registered, if one was */
  readonly onClose: (code?: string) => void
}): ReactNode {
  const firstKind =
    KINDS.find((kind) => props.quantity !== undefined && MEASURED_BY[kind].includes(props.quantity)) ?? 'thermometer'
  const { id } = useInvestigation()
  const draft = useDraft(`${id}/new ${firstKind}`)
  const form = formOf(draft, firstKind)
  const unticked = { draft, field: 'left' }
  const writing = useWriting()
  const set = (change: Partial<InstrumentForm>): void => draft.set(change)
  const measures = MEASURED_BY[form.kind].filter((quantity) => isTicked(quantity, unticked))
  const unit = UNIT_OF[MEASURED_BY[form.kind][0] ?? 'ph']
  const register = async (): Promise<void> => {
    const kept = await writing.write('instrument.registered', {
      code: form.code,
      kind: form.kind,
      measures: [...measures],
      rangeMin: numberIn(form.min),
      rangeMax: numberIn(form.max),
      resolution: numberIn(form.step),
      unit,
      ...(form.calibratedOn === '' ? {} : { calibratedOn: form.calibratedOn }),
      ...(form.due === '' ? {} : { calibrationDue: form.due }),
    })
    if (!kept) return
    draft.clear()
    props.onClose(form.code.trim())
  }
  return (
    <Dialog
      title="Register an instrument"
      open
      onClose={() => props.onClose()}
      actions={
        <>
          <Button onPress={() => props.onClose()}>Leave it</Button>
          <Button kind="primary" busy={writing.busy} onPress={() => void register()}>
            Register
          </Button>
        </>
      }
    >
      <div className="form">
        <FormRow>
          <TextField label="Name or number on it" value={form.code} onChange={(code) => set({ code })} required />
          <Select
            label="Kind"
            value={form.kind}
            onChange={(kind) => set({ kind })}
            choices={KINDS.map((id) => ({ id, label: id }))}
          />
        </FormRow>
        <RangeFields form={form} unit={UNIT_WORDS[unit]} onChange={set} />
        {form.kind === 'chlorine kit' && (
          <Ticks
            {...unticked}
            choices={MEASURED_BY['chlorine kit'].map((id) => ({ id, label: `Measures ${QUANTITY_WORDS[id]}` }))}
          />
        )}
        <CalibrationFields form={form} onChange={set} />
        <NotKept issues={writing.issues} />
      </div>
    </Dialog>
  )
}

/** What is typed so far. */
function formOf({ get }: DraftHandle, firstKind: Kind): InstrumentForm {
  return {
    code: get('code'),
    kind: KINDS.find((kind) => kind === get('kind')) ?? firstKind,
    min: get('min'),
    max: get('max'),
    step: get('step'),
    calibratedOn: get('calibratedOn'),
    due: get('due'),
  }
}

interface FormPart {
  readonly form: InstrumentForm
  readonly onChange: (change: Partial<InstrumentForm>) => void
}

function RangeFields({ form, unit, onChange }: FormPart & { readonly unit: string }): ReactNode {
  return (
    <FormRow>
      <QuantityField label="Reads from" unit={unit} value={form.min} onChange={(min) => onChange({ min })} />
      <QuantityField label="Up to" unit={unit} value={form.max} onChange={(max) => onChange({ max })} />
      <QuantityField
        label="In steps of"
        difference
        unit={unit}
        value={form.step}
        onChange={(step) => onChange({ step })}
      />
    </FormRow>
  )
}

function CalibrationFields({ form, onChange }: FormPart): ReactNode {
  return (
    <FormRow>
      <DateField
        label="Calibrated on"
        value={form.calibratedOn}
        onChange={(calibratedOn) => onChange({ calibratedOn })}
      />
      <DateField label="Next calibration due" value={form.due} onChange={(due) => onChange({ due })} />
    </FormRow>
  )
}

/** What is not a number is left for the record to refuse with its reason. */
function numberIn(text: string): number {
  const read = readTypedQuantity(text)
  return read.kind === 'number' ? read.value : Number.NaN
}
