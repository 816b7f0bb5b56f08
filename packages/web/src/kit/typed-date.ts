const DATE = /^(\d{4})-(\d{2})-(\d{2})$/

/** Completes what a hand types (20260314, 2026-3-4, 2026.03.14) to the ISO form; anything else comes back as it was typed. */
export function tidyTypedDate(text: string): string {
  const trimmed = text.trim()
  const parts = /^(\d{4})(\d{2})(\d{2})$/.exec(trimmed) ?? /^(\d{4})[-./ ](\d{1,2})[-./ ](\d{1,2})$/.exec(trimmed)
  if (parts === null) return trimmed
  return `${parts[1] ?? ''}-${(parts[2] ?? '').padStart(2, '0')}-${(parts[3] ?? '').padStart(2, '0')}`
}

/** What is wrong with a typed ISO date; undefined when it is empty or a real day of the calendar. */
export function typedDateIssue(text: string): string | undefined {
  if (text === '') return undefined
  const parts = DATE.exec(text)
  if (parts === null) return 'Type year-month-day, for example 2026-03-14.'
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])]
  const date = new Date(Date.UTC(year, month - 1, day))
  const real = date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day
  return real ? undefined : `There is no ${text} in the calendar.`
}

/** What is wrong with a typed time of day; undefined when it is empty or between 00:00 and 23:59. */
export function typedTimeIssue(text: string): string | undefined {
  if (text === '' || /^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d)?$/.test(text)) return undefined
  return 'Type hours and minutes, for example 09:40.'
}

/** Completes 940, 0940, 9.40 and 9:40 to 09:40. */
export function tidyTypedTime(text: string): string {
  const parts = /^(\d{1,2})[:.h ]?(\d{2})$/.exec(text.trim())
  return parts === null ? text.trim() : `${(parts[1] ?? '').padStart(2, '0')}:${parts[2] ?? ''}`
}
