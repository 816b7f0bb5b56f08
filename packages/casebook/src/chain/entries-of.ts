import type { Entry } from '../entry/entry.ts'
import { parseEntry } from '../entry/parse-entry.ts'
import type { Link } from './link.ts'

/**
 * The entries of a record as today's schemas read them: a field that came later has its default. Links keep what was written, so
 * their hashes hold; whatever is derived is derived from this.
 */
export function entriesOf(links: readonly Link[]): Entry[] {
  return links.map(({ entry }) => {
    const parsed = parseEntry(entry)
    return parsed.ok ? parsed.entry : entry
  })
}
