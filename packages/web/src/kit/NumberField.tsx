import { type ReactNode, useState } from 'react'
import { Field, type FieldProps } from './Field.tsx'
import { readTypedNumber } from './typed-number.ts'

export interface NumberFieldProps extends FieldProps {
  /** Exactly what was typed; read it with readTypedNumber when you need the number. */
  readonly value: string
  readonly onChange: (typed: string) => void
  readonly unit?: string | undefined
  /** Another unit the value can be looked at and typed in, one tap away. */
  readonly otherUnit?: { readonly unit: string; readonly onChoose: () => void } | undefined
  readonly min?: number | undefined
  readonly max?: number | undefined
  readonly whole?: boolean | undefined
  /** Takes the focus when it appears; for the one value a dialog was opened for. */
  readonly focusFirst?: boolean | undefined
}

/** A number that keeps what was typed, takes a decimal comma, carries its unit, and says what is wrong once you leave it. */
export function NumberField(props: NumberFieldProps): ReactNode {
  const [left, setLeft] = useState(false)
  const issue = props.issue ?? (left ? issueOf(props) : undefined)
  return (
    <Field field={{ ...props, issue, width: props.width ?? 'narrow' }}>
      {(wiring) => (
        <span className="input-with-unit">
          <input
            {...wiring}
            className="input"
            type="text"
            inputMode={props.whole === true ? 'numeric' : 'decimal'}
            autoComplete="off"
            value={props.value}
            onChange={(event) => props.onChange(event.target.value)}
            onBlur={() => setLeft(true)}
            // oxlint-disable-next-line jsx-a11y/no-autofocus -- only where a dialog opens for this one value
            autoFocus={props.focusFirst}
          />
          {props.unit !== undefined && <Units {...props} unit={props.unit} />}
        </span>
      )}
    </Field>
  )
}

/** The unit the value is in and, one tap away, the other. */
function Units({ label, unit, otherUnit, disabled }: NumberFieldProps & { readonly unit: string }): ReactNode {
  return (
    <span className="input-units">
      <span className="input-unit">
        {unit}
        {otherUnit !== undefined && ' or'}
      </span>
      {otherUnit !== undefined && (
        <button
          type="button"
          className="input-other-unit"
          disabled={disabled}
          aria-label={`${label} in ${otherUnit.unit}`}
          onClick={otherUnit.onChoose}
        >
          {otherUnit.unit}
        </button>
      )}
    </span>
  )
}

function issueOf(props: NumberFieldProps): string | undefined {
  const read = readTypedNumber(props.value)
  if (read.kind === 'unreadable') return read.issue
  if (read.kind === 'empty') return undefined
  const unit = props.unit === undefined ? '' : ` ${props.unit}`
  if (props.whole === true && !Number.isInteger(read.value)) return 'A whole number is needed.'
  if (props.min !== undefined && read.value < props.min) return `At least ${props.min}${unit} is possible here.`
  if (props.max !== undefined && read.value > props.max) return `At most ${props.max}${unit} is possible here.`
  return undefined
}
