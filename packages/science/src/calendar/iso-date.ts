/** Plain calendar dates as text, `2026-03-31`: no clock, no zone. Text order is date order. */
export type IsoDate = string

const DAY_MS = 86_400_000

/**
 * The date a number of days later (or earlier, when negative).
 *
 * @throws RangeError when the date does not exist.
 * @source common-practice
 * @example
 * addDays('2024-03-01', -1) // => "2024-02-29"
 */
export function addDays(date: IsoDate, days: number): IsoDate {
  return isoOf(dayNumber(date) + days)
}

/**
 * The same day of the month a number of months later; where that month is shorter, its last day. Count every date of a series from
 * the first one, so that 31 January leads to 28 February and then to 31 March.
 *
 * @throws RangeError when the date does not exist.
 * @source common-practice
 * @example
 * addMonths('2026-01-31', 1) // => "2026-02-28"
 */
export function addMonths(date: IsoDate, months: number): IsoDate {
  dayNumber(date)
  const [year, month, day] = partsOf(date)
  const index = year * 12 + (month - 1) + months
  const [toYear, toMonth] = [Math.floor(index / 12), index - Math.floor(index / 12) * 12]
  const lastDay = new Date(Date.UTC(toYear, toMonth + 1, 0)).getUTCDate()
  return isoOf(Date.UTC(toYear, toMonth, Math.min(day, lastDay)) / DAY_MS)
}

/**
 * Whole days from one date to another.
 *
 * @throws RangeError when a date does not exist.
 * @source common-practice
 * @example
 * daysBetween('2026-02-27', '2026-03-01') // => 2
 */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayNumber(to) - dayNumber(from)
}

/**
 * The later of two dates.
 *
 * @source common-practice
 * @example
 * laterOf('2026-02-27', '2026-03-01') // => "2026-03-01"
 */
export function laterOf(a: IsoDate, b: IsoDate): IsoDate {
  return a > b ? a : b
}

function dayNumber(date: IsoDate): number {
  const [year, month, day] = partsOf(date)
  const number = Date.UTC(year, month - 1, day) / DAY_MS
  if (isoOf(number) !== date) throw new RangeError(`Cannot reckon with a date because it does not exist: got ${date}`)
  return number
}

function partsOf(date: IsoDate): [number, number, number] {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date)
  if (match === null)
    throw new RangeError(`Cannot reckon with a date because it must be written 2026-03-31: got ${date}`)
  return [Number(match[1]), Number(match[2]), Number(match[3])]
}

function isoOf(dayNumberFromEpoch: number): IsoDate {
  return new Date(dayNumberFromEpoch * DAY_MS).toISOString().slice(0, 10)
}
