import type { ReactNode } from 'react'
import { Field, type FieldProps } from './Field.tsx'

export interface TextAreaProps extends FieldProps {
  readonly value: string
  readonly onChange: (value: string) => void
  readonly rows?: number | undefined
  readonly placeholder?: string | undefined
  /** For pasted tables and codes. */
  readonly mono?: boolean | undefined
  /** Judges what is pasted or dropped before the area takes it, given the text as it would then stand; true: it was dealt with elsewhere. */
  readonly onArrival?: ((text: string) => boolean) | undefined
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
          onPaste={(event) => intercept(event, { data: event.clipboardData, judge: props.onArrival })}
          onDrop={(event) => intercept(event, { data: event.dataTransfer, judge: props.onArrival })}
        />
      )}
    </Field>
  )
}

function intercept(
  event: { readonly currentTarget: HTMLTextAreaElement; readonly preventDefault: () => void },
  { data, judge }: { data: DataTransfer; judge: TextAreaProps['onArrival'] },
): void {
  const { value, selectionStart, selectionEnd } = event.currentTarget
  const text = `${value.slice(0, selectionStart)}${data.getData('text/plain')}${value.slice(selectionEnd)}`
  if (judge?.(text) === true) event.preventDefault()
}
