import { type ReactNode, useId } from 'react'

export interface CheckboxFieldProps {
  readonly label: ReactNode
  readonly checked: boolean
  readonly onChange: (checked: boolean) => void
  readonly hint?: ReactNode
  readonly issue?: string | undefined
  readonly disabled?: boolean | undefined
}

/** Yes or no, with the whole line as the target. */
export function CheckboxField(props: CheckboxFieldProps): ReactNode {
  const id = useId()
  const described = [props.hint !== undefined && `${id}-hint`, props.issue !== undefined && `${id}-issue`].filter(
    (part) => part !== false,
  )
  return (
    <div className="check">
      <label className="check-line">
        <input
          type="checkbox"
          checked={props.checked}
          disabled={props.disabled}
          aria-describedby={described.length > 0 ? described.join(' ') : undefined}
          onChange={(event) => props.onChange(event.target.checked)}
        />
        <span>{props.label}</span>
      </label>
      {props.hint !== undefined && (
        <p id={`${id}-hint`} className="field-hint">
          {props.hint}
        </p>
      )}
      {props.issue !== undefined && (
        <p id={`${id}-issue`} className="field-issue" role="alert">
          {props.issue}
        </p>
      )}
    </div>
  )
}
