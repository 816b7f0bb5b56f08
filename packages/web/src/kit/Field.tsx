import { type ReactNode, useId } from 'react'

/** What every field of the kit takes. */
export interface FieldProps {
  readonly label: string
  /** One short line under the label: what is wanted, in which form. */
  readonly hint?: ReactNode
  /** What is wrong with the present value and what to do; shown and announced when given. */
  readonly issue?: string | undefined
  readonly required?: boolean | undefined
  readonly disabled?: boolean | undefined
  /** How wide the value usually is. */
  readonly width?: 'narrow' | 'medium' | 'full' | undefined
  /** Keeps the label for screen readers only, where a column head or a row already says it. */
  readonly labelHidden?: boolean | undefined
}

/** Attributes that tie an input to its label, hint and issue. */
export interface FieldWiring {
  readonly id: string
  readonly required: boolean
  readonly disabled: boolean
  readonly 'aria-invalid': boolean
  readonly 'aria-describedby': string | undefined
}

/** Label, hint, the input you render with the wiring, and the issue. The base of every field; screens use the fields themselves. */
export function Field({
  field,
  children,
}: {
  field: FieldProps
  children: (wiring: FieldWiring) => ReactNode
}): ReactNode {
  const id = useId()
  const hintId = `${id}-hint`
  const issueId = `${id}-issue`
  const described = [field.hint !== undefined && hintId, field.issue !== undefined && issueId].filter(
    (part) => part !== false,
  )
  const wiring: FieldWiring = {
    id,
    required: field.required ?? false,
    disabled: field.disabled ?? false,
    'aria-invalid': field.issue !== undefined,
    'aria-describedby': described.length > 0 ? described.join(' ') : undefined,
  }
  return (
    <div
      className={`field field-${field.width ?? 'medium'}`}
      data-invalid={field.issue === undefined ? undefined : true}
    >
      <label id={`${id}-label`} htmlFor={id} className={field.labelHidden === true ? 'visually-hidden' : 'field-label'}>
        {field.label}
        {field.required === true && (
          <span className="field-required" aria-hidden="true">
            {' '}
            needed
          </span>
        )}
      </label>
      {children(wiring)}
      {field.hint !== undefined && (
        <p id={hintId} className="field-hint">
          {field.hint}
        </p>
      )}
      {field.issue !== undefined && (
        <p id={issueId} className="field-issue" role="alert">
          {field.issue}
        </p>
      )}
    </div>
  )
}
