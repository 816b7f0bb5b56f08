import { CONDITIONS } from '@rillmark/casebook/custody/kinds.ts'
import type { Condition, SampleCustody } from '@rillmark/casebook/custody/sample-custody.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'

export interface Exception {
  readonly label: string
  readonly condition: Condition
  readonly notes: string
}

const NOTED = CONDITIONS.filter((condition) => condition !== 'accepted')

/** Samples are accepted unless marked here, each with a coded condition. */
export function ExceptionRows(props: {
  readonly samples: readonly SampleCustody[]
  readonly exceptions: readonly Exception[]
  readonly onChange: (exceptions: readonly Exception[]) => void
}): ReactNode {
  const { samples, exceptions, onChange } = props
  const marked = new Set(exceptions.map(({ label }) => label))
  const put = (index: number, change: Partial<Exception>): void =>
    onChange(exceptions.map((one, at) => (at === index ? { ...one, ...change } : one)))
  const next = samples.find(({ label }) => !marked.has(label))
  return (
    <div className="stack">
      <p>
        <b>{samples.length - marked.size} accepted</b> as they came, {marked.size} noted.
      </p>
      {exceptions.map((one, index) => (
        <FormRow key={one.label}>
          <Select
            label="Sample"
            value={one.label}
            onChange={(label) => put(index, { label })}
            choices={samples
              .filter(({ label }) => label === one.label || !marked.has(label))
              .map(({ label, place }) => ({ id: label, label: `${label} · ${place}` }))}
          />
          <Select
            label="Condition"
            value={one.condition}
            onChange={(condition) => put(index, { condition })}
            choices={NOTED.map((id) => ({ id, label: id }))}
            width="narrow"
          />
          <TextField label="Notes" value={one.notes} onChange={(notes) => put(index, { notes })} />
          <Button
            kind="text"
            name={`Accepted after all: ${one.label}`}
            onPress={() => onChange(exceptions.filter((_, at) => at !== index))}
          >
            Accepted after all
          </Button>
        </FormRow>
      ))}
      {next !== undefined && (
        <div>
          <Button onPress={() => onChange([...exceptions, { label: next.label, condition: 'broken', notes: '' }])}>
            Mark a sample that was not simply accepted
          </Button>
        </div>
      )}
    </div>
  )
}
