import { draftEntry } from '../entry/draft.ts'
import type { EntryOf } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'

/**
 * Makes entries for tests: ids and times count up from a fixed start, so a failing test fails the same way again.
 * `make(kind, body, corrects?)` gives the entry only; nothing is checked.
 */
export function entryMaker(investigation: string, { device = 'desk-1', startAt = '2026-03-02T08:00:00.000Z' } = {}) {
  let count = 0
  function make<K extends Kind>(kind: K, body: BodyOf<K>, corrects?: { entry: string; reason: string }): EntryOf<K> {
    count += 1
    const entry = draftEntry(
      {
        investigation,
        author: 'R. Vale',
        device,
        deviceSequence: count,
        now: { instant: new Date(Date.parse(startAt) + count * 60_000).toISOString(), offset: '+00:00' },
        newId: () => testUuid(`${device}/${investigation}/${count}`),
      },
      corrects === undefined ? { kind, body } : { kind, body, corrects },
    )
    return entry as EntryOf<K>
  }
  return { make }
}

/** A UUID that follows from a name (version 8, application-defined, RFC 9562). */
function testUuid(name: string): string {
  let hash = 0xcbf29ce484222325n
  for (const char of name) hash = BigInt.asUintN(64, (hash ^ BigInt(char.codePointAt(0) ?? 0)) * 0x100000001b3n)
  const hex = hash.toString(16).padStart(16, '0').repeat(2)
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`
}
