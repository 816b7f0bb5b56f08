/** In which order a file writes day and month where it is not ISO 8601. */
export type DateOrder = 'day-month-year' | 'month-day-year'

interface Parts {
  readonly year: number
  readonly month: number
  readonly day: number
}

/**
 * A moment as a logger writes it, in ms since 1970: `2026-03-02T08:00:00Z`, `2026-03-02 08:00`, `02.03.2026 08:00:30`, `3/2/2026 8:00 PM`.
 * A zone written in the text counts; else the clock of the logger runs at the given offset.
 */
export function loggerTime(text: string, by: { order: DateOrder; offset: string }): number | undefined {
  const found = SHAPE.exec(text.trim().replace(/\s+/g, ' '))
  if (found?.groups === undefined) return undefined
  const { date = '', hour = '0', minute = '', second = '0', half, zone } = found.groups
  const parts = datePartsOf(date, by.order)
  const hours = hourOf(Number(hour), half)
  if (parts === undefined || hours === undefined || Number(minute) > 59 || Number(second) >= 60) return undefined
  const utcMs = Date.UTC(parts.year, parts.month - 1, parts.day, hours, Number(minute))
  const there = new Date(utcMs)
  if (there.getUTCDate() !== parts.day || there.getUTCMonth() !== parts.month - 1) return undefined
  return utcMs + Math.round(Number(second) * 1000) - offsetMs(zone ?? by.offset)
}

const SHAPE =
  /^(?<date>\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4})[T ,]+(?<hour>\d{1,2})[:.h](?<minute>\d{2})(?:[:.](?<second>\d{2}(?:[.,]\d{1,6})?))?\s*(?<half>[AaPp]\.?[Mm]\.?)?\s*(?<zone>Z|UTC|GMT|(?:UTC|GMT)?[+-]\d{2}:?\d{2})?$/

function datePartsOf(date: string, order: DateOrder): Parts | undefined {
  const [a = '', b = '', c = ''] = date.split(/[-/.]/)
  const [first, second, third] = [Number(a), Number(b), Number(c)]
  if (a.length === 4) return { year: first, month: second, day: third }
  if (c.length !== 4 && c.length !== 2) return undefined
  const year = c.length === 2 ? 2000 + third : third
  return order === 'day-month-year' ? { year, month: second, day: first } : { year, month: first, day: second }
}

/** Day and month of a date that is not ISO 8601, as they stand: what shows which comes first. */
export function dateNumbers(text: string): [number, number] | undefined {
  const found = /^(\d{1,2})[-/.](\d{1,2})[-/.]\d{2,4}(?:\D|$)/.exec(text.trim())
  return found === null ? undefined : [Number(found[1]), Number(found[2])]
}

function hourOf(hour: number, half: string | undefined): number | undefined {
  if (half === undefined) return hour < 24 ? hour : undefined
  if (hour < 1 || hour > 12) return undefined
  return (hour % 12) + (/^p/i.test(half) ? 12 : 0)
}

const MINUTE_MS = 60_000

function offsetMs(zone: string): number {
  const found = /([+-])(\d{2}):?(\d{2})/.exec(zone)
  if (found === null) return 0
  return (found[1] === '-' ? -1 : 1) * (Number(found[2]) * 60 + Number(found[3])) * MINUTE_MS
}
