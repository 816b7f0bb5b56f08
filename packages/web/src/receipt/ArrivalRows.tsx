import { CONDITIONS } from '@rillmark/casebook/custody/kinds.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import type { NotedArrival } from './receipt-draft.ts'

export interface ArrivedSample {
  readonly label: string
  /** what tells it apart beside its label */
  readonly words: string
}

const NOTED = CONDITIONS.filter((condition) => condition !== 'accepted')
const EXAMINED = [
  { id: 'yes', label: 'examined all the same' },
  { id: 'no', label: 'rejected, not examined' },
] as const

/** Samples are accepted unless marked here, each with a coded condition and whether it is examined. */
export function ArrivalRows(props: {
  readonly samples: readonly ArrivedSample[]
  readonly noted: readonly NotedArrival[]
  readonly onChange: (noted: readonly NotedArrival[]) => void
}): ReactNode {
  const { samples, noted, onChange } = props
  const marked = new Set(noted.map(({ label }) => label))
  const put = (index: number, change: Partial<NotedArrival>): void =>
    onChange(noted.map((one, at) => (at === index ? { ...one, ...change } : one)))
  const next = samples.find(({ label }) => !marked.has(label))
  return (
    <div className="stack">
      <p>
        <b>{samples.length - marked.size} accepted</b> as they came, {marked.size} noted.
      </p>
      {noted.map((one, index) => (
        <fieldset key={one.label} className="arrival-row">
          <legend className="visually-hidden">{one.label}</legend>
          <FormRow>
            <Select
              label="Sample"
              value={one.label}
              onChange={(label) => put(index, { label })}
              choices={samples
                .filter(({ label }) => label === one.label || !marked.has(label))
                .map(({ label, words }) => ({ id: label, label: `${label} · ${words}` }))}
            />
            <Select
              label="Condition"
              value={one.condition}
              onChange={(condition) => put(index, { condition })}
              choices={NOTED.map((id) => ({ id, label: id }))}
              width="narrow"
            />
            <TextField label="Notes" value={one.notes} onChange={(notes) => put(index, { notes })} />
          </FormRow>
          <RadioRow
            label={`${one.label} is`}
            value={one.examined}
            onChange={(examined) => put(index, { examined })}
            choices={EXAMINED}
          />
          <div>
            <Button
              kind="text"
              name={`Accepted after all: ${one.label}`}
              onPress={() => onChange(noted.filter((_, at) => at !== index))}
            >
              Accepted after all
            </Button>
          </div>
        </fieldset>
      ))}
      {next !== undefined && (
        <div>
          <Button
            onPress={() => onChange([...noted, { label: next.label, condition: 'broken', examined: 'no', notes: '' }])}
          >
            Mark a sample that was not simply accepted
          </Button>
        </div>
      )}
    </div>
  )
}
