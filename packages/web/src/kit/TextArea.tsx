import type { ReactNode } from 'react'
import { Field, type FieldProps } from './Field.tsx'

export interface TextAreaProps extends FieldProps {
  readonly value: string
  readonly onChange: (value: string) => void
  readonly rows?: number | undefined
  readonly placeholder?: string | undefined
  /** For pasted tables and codes. */
  readonly mono?: boolean | undefined
}

/** Several lines of text, or a table pasted from a spreadsheet. */
export function TextArea(props: TextAreaProps): ReactNode {
  return (
    <Field field={{ ...props, width: props.width ?? 'full' }}>
      {(wiring) => (
        <textarea
          {...wiring}
          className={props.mono === true ? 'input mono' : 'input'}
          rows={props.rows ?? 3}
          value={props.value}
          onChange={(event) => props.onChange(event.target.value)}
          placeholder={props.placeholder}
        />
      )}
    </Field>
  )
}
