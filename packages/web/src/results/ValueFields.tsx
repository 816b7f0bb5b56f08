import { CONCENTRATION_UNITS } from '@rillmark/casebook/units/quantity.ts'
import type { ReactNode } from 'react'
import { FormRow } from '../kit/FormRow.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { VALUE_WORDS, type ValueDraft } from './value-draft.ts'

const KINDS = (Object.keys(VALUE_WORDS) as (keyof typeof VALUE_WORDS)[]).map((id) => ({ id, label: VALUE_WORDS[id] }))
const UNITS = CONCENTRATION_UNITS.map((id) => ({ id, label: id }))
const WITH_AMOUNT: ReadonlySet<string> = new Set(['count', 'below', 'above', 'not-detected'])

/** A result in the kinds a laboratory reports; only the fields that kind has are shown. */
export function ValueFields({
  draft,
  onChange,
}: {
  readonly draft: ValueDraft
  readonly onChange: (draft: ValueDraft) => void
}): ReactNode {
  const set = (change: Partial<ValueDraft>): void => onChange({ ...draft, ...change })
  const negative = draft.kind === 'not-detected'
  return (
    <FormRow>
      <Select label="Result" value={draft.kind} onChange={(kind) => set({ kind })} choices={KINDS} width="narrow" />
      {negative && (
        <NumberField
          label="Volume examined"
          unit="mL"
          value={draft.volumeMl}
          onChange={(volumeMl) => set({ volumeMl })}
          min={0}
        />
      )}
      {WITH_AMOUNT.has(draft.kind) && (
        <>
          <NumberField
            label={negative ? 'Limit, if stated' : draft.kind === 'count' ? 'Count' : 'Limit'}
            value={draft.amount}
            onChange={(amount) => set({ amount })}
            min={0}
          />
          <Select label="Unit" value={draft.unit} onChange={(unit) => set({ unit })} choices={UNITS} width="narrow" />
        </>
      )}
      {draft.kind === 'not-tested' && (
        <TextField label="Why" value={draft.reason} onChange={(reason) => set({ reason })} required />
      )}
    </FormRow>
  )
}
