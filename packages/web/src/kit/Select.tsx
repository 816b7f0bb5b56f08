import type { ReactNode } from 'react'
import { Field, type FieldProps } from './Field.tsx'

export interface Choice<Id extends string = string> {
  readonly id: Id
  readonly label: string
  readonly hint?: string | undefined
}

export interface SelectProps<Id extends string> extends FieldProps {
  readonly value: Id | ''
  readonly onChange: (value: Id) => void
  readonly choices: readonly Choice<Id>[]
  /** First line while nothing is chosen. */
  readonly placeholder?: string | undefined
}

/** One of a known, short list. The device's own list opens, which is the quickest on a phone. */
export function Select<Id extends string>(props: SelectProps<Id>): ReactNode {
  const choose = (id: string): void => {
    const chosen = props.choices.find((choice) => choice.id === id)
    if (chosen !== undefined) props.onChange(chosen.id)
  }
  return (
    <Field field={props}>
      {(wiring) => (
        <span className="select">
          <select {...wiring} className="input" value={props.value} onChange={(event) => choose(event.target.value)}>
            {((props.value === '' && !props.choices.some(({ id }) => id === '')) ||
              props.placeholder !== undefined) && (
              <option value="" disabled>
                {props.placeholder ?? 'choose'}
              </option>
            )}
            {props.choices.map((choice) => (
              <option key={choice.id} value={choice.id}>
                {choice.label}
              </option>
            ))}
          </select>
        </span>
      )}
    </Field>
  )
}
