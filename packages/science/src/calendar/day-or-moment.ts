/** A day (2026-03-01) or a moment (2026-03-01T14:30, with or without Z or an offset) as text. */
export type DayOrMoment = string

const DAY_MS = 86_400_000
const MINUTE_MS = 60_000
const WRITTEN = /^(\d{4}-\d{2}-\d{2})(?:T(\d{2}:\d{2}(?::\d{2}(?:\.\d{1,9})?)?)(Z|[+-]\d{2}:\d{2})?)?$/

export interface ReadMoment {
  /** Days since 1970-01-01T00:00 by the clock on the wall. */
  from: number
  /** The next midnight for a day, the same as `from` for a moment. */
  to: number
}

/**
 * What a day or moment covers, in days of the local calendar: a day from its midnight to the next, a moment nothing but itself.
 *
 * Special cases: text without an offset is taken as local; undefined where the text is no day or moment that exists.
 *
 * @param text day or moment
 * @param offsetMinutes of local time, east of Greenwich positive
 * @source common-practice
 * @example
 * readDayOrMoment('1970-01-02T12:00+02:00', 120).from // => 1.5
 */
export function readDayOrMoment(text: DayOrMoment, offsetMinutes: number): ReadMoment | undefined {
  const [, day = '', clock, zone] = WRITTEN.exec(text) ?? []
  const midnight = Date.parse(`${day}T00:00:00Z`)
  if (Number.isNaN(midnight) || new Date(midnight).toISOString().slice(0, 10) !== day) return undefined
  if (clock === undefined) return { from: midnight / DAY_MS, to: midnight / DAY_MS + 1 }
  const wall = Date.parse(`${day}T${clock.length === 5 ? `${clock}:00` : clock}Z`)
  const own = zone === undefined ? offsetMinutes : offsetOf(text)
  if (Number.isNaN(wall) || clock.startsWith('24') || own === undefined) return undefined
  const at = (wall + (offsetMinutes - own) * MINUTE_MS) / DAY_MS
  return { from: at, to: at }
}

/** No place on earth is further from Greenwich. */
const LARGEST_OFFSET_MINUTES = 14 * 60

/**
 * The offset a moment is written with, minutes east of Greenwich; undefined where it has none.
 *
 * @param text day or moment
 * @source common-practice
 * @example
 * offsetOf('2026-03-01T14:30-05:00') // => -300
 */
export function offsetOf(text: DayOrMoment): number | undefined {
  return minutesOfOffset(WRITTEN.exec(text)?.[3] ?? '')
}

const OFFSET = /^[+-]\d{2}:\d{2}$/

/**
 * An offset as it is written, in minutes east of Greenwich; undefined where no place on earth has it.
 *
 * @param written Z, or hours and minutes with their sign
 * @source common-practice
 * @example
 * minutesOfOffset('+05:30') // => 330
 */
export function minutesOfOffset(written: string): number | undefined {
  if (written === 'Z') return 0
  if (!OFFSET.test(written)) return undefined
  const [hours = 0, minutes = 0] = written.slice(1).split(':').map(Number)
  const size = hours * 60 + minutes
  if (minutes > 59 || size > LARGEST_OFFSET_MINUTES) return undefined
  return written.startsWith('-') ? -size : size
}

/**
 * A place on the local calendar as a moment, to the minute, with the offset where one is known.
 *
 * @param days since 1970-01-01T00:00 by the clock on the wall
 * @param offsetMinutes of local time
 * @throws RangeError when the year has more or fewer than four digits
 * @source common-practice
 * @example
 * momentOf(1.5, 120) // => "1970-01-02T12:00+02:00"
 */
export function momentOf(days: number, offsetMinutes: number | undefined): DayOrMoment {
  const at = new Date(Math.round((days * DAY_MS) / MINUTE_MS) * MINUTE_MS)
  const text = Number.isNaN(at.getTime()) ? '' : at.toISOString()
  if (!/^\d{4}-/.test(text))
    throw new RangeError(`Cannot write a moment because its year has not four digits: got ${days} days`)
  return `${text.slice(0, 16)}${offsetMinutes === undefined ? '' : offsetWords(offsetMinutes)}`
}

function offsetWords(minutes: number): string {
  if (minutes === 0) return 'Z'
  const two = (number: number): string => String(number).padStart(2, '0')
  const size = Math.abs(minutes)
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`
}
