const MINUTE_MS = 60_000
const MINUTES_A_DAY = 1440

/** A length of time as people say it: `9 h 20 min`, `45 min`, from two days on `3 days 4 h`. Without sign, whole minutes, rounded down. */
export function durationWords(lengthMs: number): string {
  const minutes = Math.floor(Math.abs(lengthMs) / MINUTE_MS)
  if (minutes < 60) return `${minutes} min`
  if (minutes >= 2 * MINUTES_A_DAY)
    return joined(Math.floor(minutes / MINUTES_A_DAY), 'days', Math.floor((minutes % MINUTES_A_DAY) / 60), 'h')
  return joined(Math.floor(minutes / 60), 'h', minutes % 60, 'min')
}

/** What is left of a time, or how long it has been over. */
export function leftWords(leftMs: number, of: string): string {
  return leftMs >= 0 ? `${durationWords(leftMs)} of ${of} left` : `${of} over since ${durationWords(leftMs)}`
}

/** An instant as the clock on the wall showed it where it was written down: `2026-03-04 16:05`. */
export function wallClock(instant: string, offset: string): string {
  const [, sign, hours, minutes] = /^([+-])(\d\d):(\d\d)$/.exec(offset) ?? []
  const shiftMs = (Number(hours ?? 0) * 60 + Number(minutes ?? 0)) * MINUTE_MS * (sign === '-' ? -1 : 1)
  return new Date(Date.parse(instant) + shiftMs).toISOString().slice(0, 16).replace('T', ' ')
}

function joined(large: number, largeUnit: string, small: number, smallUnit: string): string {
  return small === 0 ? `${large} ${largeUnit}` : `${large} ${largeUnit} ${small} ${smallUnit}`
}
