import type { Kind } from '../entry/kinds.ts'
import type { RecordState } from '../record/state.ts'

const SHAPING: ReadonlySet<Kind> = new Set<Kind>(['building.described', 'building.edited'])

/**
 * The entry that last shaped the described system: a description, an edit, or an amendment or withdrawal of one. Two records with the
 * same such entry describe the same system. Undefined while nobody described the building.
 */
export function systemEntryOf(record: RecordState): string | undefined {
  return record.entries.findLast(({ id, kind }) => {
    if (SHAPING.has(kind)) return true
    const first = kind === 'entry.withdrawn' ? record.firstOf.get(id) : undefined
    const withdrawn = first === undefined ? undefined : record.versions.get(first)?.first.kind
    return withdrawn !== undefined && SHAPING.has(withdrawn)
  })?.id
}
