import { CONDITIONS } from '@rillmark/casebook/custody/kinds.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import type { NotedArrival, SaidArrivals } from './receipt-draft.ts'

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

/** Every sample is said to be as it should be, one by one or all the rest at once, or noted with a coded condition. None is taken for accepted unsaid. */
export function ArrivalRows(props: {
  readonly samples: readonly ArrivedSample[]
  readonly said: SaidArrivals
  readonly onChange: (said: SaidArrivals) => void
}): ReactNode {
  const { samples, said, onChange } = props
  const noted = new Map(said.noted.map((one) => [one.label, one]))
  const accepted = new Set(said.accepted)
  const simple = samples.filter(({ label }) => !noted.has(label))
  const open = simple.filter(({ label }) => !accepted.has(label))
  const accept = (labels: readonly string[]): void =>
    onChange({
      accepted: [...new Set([...said.accepted, ...labels])],
      noted: said.noted.filter(({ label }) => !labels.includes(label)),
    })
  const unsay = (label: string): void => onChange({ ...said, accepted: said.accepted.filter((one) => one !== label) })
  const note = (label: string): void =>
    onChange({
      accepted: said.accepted.filter((one) => one !== label),
      noted: [...said.noted, { label, condition: '', examined: '', notes: '' }],
    })
  const put = (changed: NotedArrival): void =>
    onChange({ ...said, noted: said.noted.map((one) => (one.label === changed.label ? changed : one)) })
  return (
    <div className="stack">
      <p aria-live="polite">
        <b>{simple.length - open.length} accepted</b>, {noted.size} noted, {open.length} not yet said.
      </p>
      <ul className="arrival-list">
        {simple.map(({ label, words }) => (
          <li key={label}>
            <CheckboxField
              label={
                <>
                  <b className="mono">{label}</b> {words}: here and as it should be
                </>
              }
              checked={accepted.has(label)}
              onChange={(checked) => (checked ? accept([label]) : unsay(label))}
            />
            <Button kind="text" name={`Something is wrong with ${label}`} onPress={() => note(label)}>
              Something is wrong
            </Button>
          </li>
        ))}
      </ul>
      {open.length > 1 && (
        <div>
          <Button onPress={() => accept(open.map(({ label }) => label))}>
            {open.length === samples.length ? `All ${open.length} are` : `The other ${open.length} are all`} here and as
            they should be
          </Button>
        </div>
      )}
      {said.noted.map((one) => (
        <NotedRow key={one.label} noted={one} onChange={put} onAccept={() => accept([one.label])} />
      ))}
    </div>
  )
}

function NotedRow(props: {
  readonly noted: NotedArrival
  readonly onChange: (noted: NotedArrival) => void
  readonly onAccept: () => void
}): ReactNode {
  const { noted, onChange, onAccept } = props
  const { label } = noted
  return (
    <fieldset className="arrival-row">
      <legend className="mono">{label}</legend>
      <FormRow>
        <Select
          label="Condition"
          value={noted.condition}
          onChange={(condition) => onChange({ ...noted, condition })}
          choices={NOTED.map((id) => ({ id, label: id }))}
          width="narrow"
        />
        <TextField label="Notes" value={noted.notes} onChange={(notes) => onChange({ ...noted, notes })} />
      </FormRow>
      <RadioRow
        label={`${label} is`}
        value={noted.examined}
        onChange={(examined) => onChange({ ...noted, examined })}
        choices={EXAMINED}
      />
      <div>
        <Button kind="text" name={`Accepted after all: ${label}`} onPress={onAccept}>
          Accepted after all
        </Button>
      </div>
    </fieldset>
  )
}
