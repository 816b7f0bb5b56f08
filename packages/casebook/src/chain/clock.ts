import type { Entry } from '../entry/entry.ts'

const MS_PER_S = 1000

/** A clock less wrong than this is right enough: what people write down is to the minute. */
const WRONG_FROM_S = 60
/** Two measurements this near each other differ by the network, not by the clock. */
const SAME_WITHIN_S = 5

/**
 * How far the clock of a device was ahead of the receiver's when its entries came, in whole seconds; undefined where it was right enough.
 * A clock set back to right between writing and sending shows in entries dated after their receipt: these are moved to it, all alike, so
 * that the time between them stays.
 *
 * @param deviceNow the device's clock when it sent them; undefined where it did not say
 * @param latest the latest instant of all that waits from one setting of the clock, however many batches it takes
 * @param before what was found of the same device the last time
 */
export function clockAheadS(given: {
  readonly deviceNow: string | undefined
  readonly received: string
  readonly latest: string
  readonly before?: number | undefined
}): number | undefined {
  const { deviceNow, received, latest, before } = given
  if (deviceNow === undefined) return undefined
  const measured = secondsFrom(received, deviceNow)
  const future = secondsFrom(received, latest)
  const ahead = future - measured >= WRONG_FROM_S ? future : measured
  if (before !== undefined && Math.abs(ahead - before) <= SAME_WITHIN_S) return before
  return Math.abs(ahead) >= WRONG_FROM_S ? ahead : undefined
}

/**
 * The entries of one device that were written by one setting of its clock: from the first on, until an instant goes back. What comes after
 * was written by a clock that had been set back.
 *
 * @param entries in the order of the device
 */
export function byOneClock<E extends Pick<Entry, 'instant'>>(entries: readonly E[]): { run: E[]; latest: string } {
  const run: E[] = []
  let latest = ''
  for (const entry of entries) {
    if (latest !== '' && secondsFrom(entry.instant, latest) >= WRONG_FROM_S) break
    run.push(entry)
    if (entry.instant > latest) latest = entry.instant
  }
  return { run, latest }
}

function secondsFrom(earlier: string, later: string): number {
  return Math.round((Date.parse(later) - Date.parse(earlier)) / MS_PER_S)
}

/** Fields of bodies that hold an instant which the device's clock may have filled in. */
const BY_CLOCK = ['at', 'takenAt'] as const

/** What a person types, from a clock on the wall or a paper, is to the minute: the device's clock has no part in it. */
const TO_THE_MINUTE = /:00\.000Z$/

/** An entry with its times as the receiver's clock would have shown them. What was written stays in the link. */
export function byRightClock<E extends Entry>(entry: E, ahead: number | undefined): E {
  if (ahead === undefined || ahead === 0) return entry
  const moved = { ...entry, instant: earlierBy(entry.instant, ahead) }
  const body = (entry.body ?? {}) as Readonly<Record<string, unknown>>
  const times = BY_CLOCK.flatMap((field) => {
    const time = body[field]
    const typed = typeof time === 'string' && field === 'at' && TO_THE_MINUTE.test(time)
    return typeof time !== 'string' || typed ? [] : [[field, earlierBy(time, ahead)]]
  })
  return times.length === 0 ? moved : { ...moved, body: { ...body, ...Object.fromEntries(times) } }
}

const INSTANT = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/

/** The same form of instant; what is none, or would leave the years the record knows, is left as it was written. */
function earlierBy(instant: string, seconds: number): string {
  if (!INSTANT.test(instant)) return instant
  const moved = new Date(Date.parse(instant) - seconds * MS_PER_S)
  const text = Number.isNaN(moved.getTime()) ? '' : moved.toISOString()
  return /^(?:19|20|21)\d\d-/.test(text) ? text : instant
}
