import { type ReactNode, useId } from 'react'
import type { Choice } from './Select.tsx'

export interface RadioRowProps<Id extends string> {
  readonly label: string
  readonly value: Id | ''
  readonly onChange: (value: Id) => void
  readonly choices: readonly Choice<Id>[]
  readonly hint?: ReactNode
  readonly issue?: string | undefined
  readonly disabled?: boolean | undefined
  readonly labelHidden?: boolean | undefined
  /** One below the other, where the choices are long or carry hints. */
  readonly stacked?: boolean | undefined
}

/** One of two to five choices, all in view. */
export function RadioRow<Id extends string>(props: RadioRowProps<Id>): ReactNode {
  const name = useId()
  return (
    <fieldset
      className="field field-full"
      disabled={props.disabled}
      aria-describedby={props.issue === undefined ? undefined : `${name}-issue`}
    >
      <legend className={props.labelHidden === true ? 'visually-hidden' : 'field-label'}>{props.label}</legend>
      <div className={props.stacked === true ? 'radios radios-stacked' : 'radios'}>
        {props.choices.map((choice) => (
          <label key={choice.id} className="radio">
            <input
              type="radio"
              name={name}
              checked={choice.id === props.value}
              onChange={() => props.onChange(choice.id)}
            />
            <span>
              {choice.label}
              {choice.hint !== undefined && <span className="faint radio-hint">{choice.hint}</span>}
            </span>
          </label>
        ))}
      </div>
      {props.hint !== undefined && <p className="field-hint">{props.hint}</p>}
      {props.issue !== undefined && (
        <p id={`${name}-issue`} className="field-issue" role="alert">
          {props.issue}
        </p>
      )}
    </fieldset>
  )
}
