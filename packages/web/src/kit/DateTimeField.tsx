import { type ReactNode, useId, useState } from 'react'
import type { FieldProps } from './Field.tsx'
import { tidyTypedDate, tidyTypedTime, typedDateIssue, typedTimeIssue } from './typed-date.ts'
import { localMinute } from '../store/local-time.ts'

export interface DateTimeFieldProps extends FieldProps {
  /** Local date and time as `2026-03-14T09:40`; either half may be empty while it is typed. */
  readonly value: string
  readonly onChange: (value: string) => void
}

/** A local date and time of day, typed in two halves, or taken from the device's clock with one press. */
export function DateTimeField(props: DateTimeFieldProps): ReactNode {
  const id = useId()
  const [left, setLeft] = useState(false)
  const [date = '', time = ''] = props.value.split('T')
  const put = (newDate: string, newTime: string): void =>
    props.onChange(newDate === '' && newTime === '' ? '' : `${newDate}T${newTime}`)
  const issue = props.issue ?? (left ? (typedDateIssue(date) ?? typedTimeIssue(time)) : undefined)
  const leave = (): void => {
    setLeft(true)
    put(tidyTypedDate(date), tidyTypedTime(time))
  }
  const input = (part: 'date' | 'time', value: string): ReactNode => (
    <input
      className="input"
      type="text"
      autoComplete="off"
      aria-label={`${props.label}, ${part}`}
      aria-invalid={issue !== undefined}
      aria-describedby={issue === undefined ? undefined : `${id}-issue`}
      placeholder={part === 'date' ? 'year-mm-dd' : 'hh:mm'}
      disabled={props.disabled}
      value={value}
      onChange={(event) => (part === 'date' ? put(event.target.value, time) : put(date, event.target.value))}
      onBlur={leave}
    />
  )
  return (
    <fieldset className="field field-medium" data-invalid={issue === undefined ? undefined : true}>
      <legend id={`${id}-label`} className={props.labelHidden === true ? 'visually-hidden' : 'field-label'}>
        {props.label}
        {props.required === true && (
          <span className="field-required" aria-hidden="true">
            {' '}
            needed
          </span>
        )}
      </legend>
      <span className="date-time">
        {input('date', date)}
        {input('time', time)}
        <button
          type="button"
          className="input-act"
          disabled={props.disabled}
          aria-describedby={`${id}-label`}
          onClick={() => props.onChange(localMinute())}
        >
          now
        </button>
      </span>
      {props.hint !== undefined && <p className="field-hint">{props.hint}</p>}
      {issue !== undefined && (
        <p id={`${id}-issue`} className="field-issue" role="alert">
          {issue}
        </p>
      )}
    </fieldset>
  )
}
