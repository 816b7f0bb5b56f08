import type { HTMLInputAutoCompleteAttribute, ReactNode } from 'react'
import { Field, type FieldProps } from './Field.tsx'

export interface TextFieldProps extends FieldProps {
  readonly value: string
  readonly onChange: (value: string) => void
  readonly onBlur?: (() => void) | undefined
  readonly onEnter?: (() => void) | undefined
  readonly placeholder?: string | undefined
  readonly autoComplete?: HTMLInputAutoCompleteAttribute | undefined
  readonly inputMode?: 'text' | 'numeric' | 'decimal' | 'search' | 'url' | undefined
  /** Takes the focus when it appears; for the one value a dialog was opened for. */
  readonly focusFirst?: boolean | undefined
  /** Codes, labels and hashes are easier to compare in the even-width face. */
  readonly mono?: boolean | undefined
  readonly maxLength?: number | undefined
}

/** One line of text. */
export function TextField(props: TextFieldProps): ReactNode {
  return (
    <Field field={props}>
      {(wiring) => (
        <input
          {...wiring}
          className={props.mono === true ? 'input mono' : 'input'}
          type="text"
          value={props.value}
          onChange={(event) => props.onChange(event.target.value)}
          onBlur={() => props.onBlur?.()}
          onKeyDown={(event) => {
            if (event.key === 'Enter' && props.onEnter !== undefined) {
              event.preventDefault()
              props.onEnter()
            }
          }}
          placeholder={props.placeholder}
          autoComplete={props.autoComplete ?? 'off'}
          inputMode={props.inputMode}
          maxLength={props.maxLength}
          // oxlint-disable-next-line jsx-a11y/no-autofocus -- only where a dialog opens for this one value
          autoFocus={props.focusFirst}
        />
      )}
    </Field>
  )
}
