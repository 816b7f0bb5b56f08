import { type ReactNode, useRef, useState } from 'react'
import { Field, type FieldProps } from './Field.tsx'
import { tidyTypedDate, typedDateIssue } from './typed-date.ts'

export interface DateFieldProps extends FieldProps {
  /** ISO date, or whatever has been typed so far. */
  readonly value: string
  readonly onChange: (value: string) => void
}

/** A day as year-month-day, typed or picked; the same in every country. */
export function DateField(props: DateFieldProps): ReactNode {
  const [left, setLeft] = useState(false)
  const picker = useRef<HTMLInputElement>(null)
  const issue = props.issue ?? (left ? typedDateIssue(props.value) : undefined)
  const leave = (): void => {
    setLeft(true)
    const tidy = tidyTypedDate(props.value)
    if (tidy !== props.value) props.onChange(tidy)
  }
  return (
    <Field field={{ ...props, issue, width: props.width ?? 'narrow' }}>
      {(wiring) => (
        <span className="input-with-unit">
          <input
            {...wiring}
            className="input"
            type="text"
            placeholder="year-mm-dd"
            autoComplete="off"
            value={props.value}
            onChange={(event) => props.onChange(event.target.value)}
            onBlur={leave}
          />
          <button
            type="button"
            className="input-act"
            disabled={props.disabled}
            aria-describedby={`${wiring.id}-label`}
            onClick={() => picker.current?.showPicker()}
          >
            pick
          </button>
          <input
            ref={picker}
            className="date-picker"
            type="date"
            tabIndex={-1}
            aria-hidden="true"
            value={typedDateIssue(props.value) === undefined ? props.value : ''}
            onChange={(event) => props.onChange(event.target.value)}
          />
        </span>
      )}
    </Field>
  )
}
