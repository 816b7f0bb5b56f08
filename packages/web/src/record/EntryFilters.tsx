import { counted } from '@rillmark/casebook/units/counted.ts'
import type { EntryFilter, ListedEntry } from '@rillmark/casebook/record/entry-list.ts'
import { STEP_WORDS, STEPS } from '@rillmark/casebook/entry/steps.ts'
import { type ReactNode, useMemo } from 'react'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'

const STEP_CHOICES = [{ id: '', label: 'all steps' }, ...STEPS.map((id) => ({ id, label: STEP_WORDS[id] }))]

/** Narrows the list by words, step, author, and to what was corrected. */
export function EntryFilters(props: {
  readonly filter: EntryFilter
  readonly onChange: (filter: EntryFilter) => void
  readonly listed: readonly ListedEntry[]
  readonly found: number
}): ReactNode {
  const { filter, onChange, listed, found } = props
  const authors = useMemo(() => [...new Set(listed.map(({ entry }) => entry.author))].toSorted(), [listed])
  const count = counted(found, { one: 'entry', many: 'entries' })
  return (
    <div className="record-filters">
      <FormRow>
        <TextField
          label="Words"
          value={filter.text ?? ''}
          onChange={(text) => onChange({ ...filter, text })}
          inputMode="search"
          placeholder="a label, a place, a number"
        />
        <Select
          label="Step"
          width="narrow"
          value={filter.step ?? ''}
          onChange={(id) => onChange({ ...filter, step: STEPS.find((step) => step === id) })}
          choices={STEP_CHOICES}
        />
        <Select
          label="Who"
          width="narrow"
          value={filter.author ?? ''}
          onChange={(id) => onChange({ ...filter, author: id === '' ? undefined : id })}
          choices={[{ id: '', label: 'everyone' }, ...authors.map((id) => ({ id, label: id }))]}
        />
      </FormRow>
      <div className="record-filter-foot">
        <CheckboxField
          label="Only amended or withdrawn"
          checked={filter.correctedOnly === true}
          onChange={(correctedOnly) => onChange({ ...filter, correctedOnly })}
        />
        <span className="quiet" role="status">
          {count}
        </span>
      </div>
    </div>
  )
}
