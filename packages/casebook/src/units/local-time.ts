/** An instant and the offset from UTC in force where it was written down. */
export interface LocalInstant {
  readonly instant: string
  readonly offset: string
}

const MINUTE_MS = 60_000
const DAY_MS = 86_400_000

/** What the clock on the wall showed: `2026-03-04 16:05`. */
export function wallClock({ instant, offset }: LocalInstant): string {
  const [, sign, hours, minutes] = /^([+-])(\d\d):(\d\d)$/.exec(offset) ?? []
  const shiftMs = (Number(hours ?? 0) * 60 + Number(minutes ?? 0)) * MINUTE_MS * (sign === '-' ? -1 : 1)
  return new Date(Date.parse(instant) + shiftMs).toISOString().slice(0, 16).replace('T', ' ')
}

/** What the calendar on the wall showed: `2026-03-04`. */
export function localDate(at: LocalInstant): string {
  return wallClock(at).slice(0, 'YYYY-MM-DD'.length)
}

/** The UTC day of an instant, or the next: wherever on earth it was written down, a later day had not begun. */
export function lastDayBegun(instant: string): string {
  return new Date(Date.parse(instant) + DAY_MS).toISOString().slice(0, 'YYYY-MM-DD'.length)
}
