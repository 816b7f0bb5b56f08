import type { Entry } from '../entry/entry.ts'
import { parseEntry } from '../entry/parse-entry.ts'
import { byRightClock } from './clock.ts'
import type { Link } from './link.ts'

/**
 * The entries of a record as they are read: a field that came later has its default, and the times of a device whose clock was wrong are
 * set right. Links keep what was written, so their hashes and signatures hold; whatever is derived is derived from this.
 */
export function entriesOf(links: readonly Link[]): Entry[] {
  return links.map(({ entry, clockAheadS }) => asRead(entry, clockAheadS))
}

/** One entry as it is read; what today's schemas can't read is given as it was written. */
export function asRead(entry: Entry, clockAheadS?: number): Entry {
  const parsed = parseEntry(entry)
  return byRightClock(parsed.ok ? parsed.entry : entry, clockAheadS)
}
