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

function joined(large: number, largeUnit: string, small: number, smallUnit: string): string {
  return small === 0 ? `${large} ${largeUnit}` : `${large} ${largeUnit} ${small} ${smallUnit}`
}
