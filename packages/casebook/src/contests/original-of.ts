import { byRightClock } from '../chain/clock.ts'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf } from '../entry/kinds.ts'

/** The entry that was contested, as it is read: whole, and with its times by the right clock. */
export function originalOf({ entry, clockAheadS }: BodyOf<'entry.contested'>): Entry {
  return byRightClock(entry as Entry, clockAheadS)
}
