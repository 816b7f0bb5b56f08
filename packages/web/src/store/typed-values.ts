import { readTypedQuantity } from '../form/typed-quantity.ts'
import { typedDateIssue, typedTimeIssue } from '../kit/typed-date.ts'

/** The number typed into a field, in the unit of the record whichever it was typed in; undefined where there is none that can be read. */
export function numberIn(typed: string): number | undefined {
  const read = readTypedQuantity(typed)
  return read.kind === 'number' ? read.value : undefined
}

/** The instant of a local date and time as typed (`2026-03-14T09:40`); undefined while either half is missing or wrong. */
export function instantIn(typed: string): string | undefined {
  const [date = '', time = ''] = typed.split('T')
  if (date === '' || time === '' || typedDateIssue(date) !== undefined || typedTimeIssue(time) !== undefined)
    return undefined
  return new Date(`${date}T${time}`).toISOString()
}

/** A text as typed, or undefined when nothing was. */
export function textIn(typed: string): string | undefined {
  const text = typed.trim()
  return text === '' ? undefined : text
}
