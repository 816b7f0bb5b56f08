import type { Settlements } from '../contests/settlements.ts'
import type { Entry } from '../entry/entry.ts'
import { emptyRecord, fileAside, fileEntry, fileVersion, type RecordState, type Versions } from '../record/state.ts'
import { effective } from './effective.ts'
import { applyEffective, type InvestigationState } from './investigation-state.ts'

/** What another record than the one there is lacks or has too: some entries were missing, others counted as well. */
export interface Change {
  readonly without?: ReadonlySet<string> | undefined
  readonly also?: readonly Entry[] | undefined
}

/** The entries filed under their versions, as settlements and a change have it. */
export function filed(
  entries: readonly Entry[],
  { settlements: { setAside, standing }, without, also = [] }: Change & { readonly settlements: Settlements },
): RecordState {
  const record = emptyRecord()
  for (const entry of entries) {
    if (without?.has(entry.id) === true) continue
    const by = setAside.get(entry.id)
    if (by === undefined) fileEntry(record, entry)
    else fileAside(record, { entry, by })
    const original = standing.get(entry.id)
    if (original !== undefined && !setAside.has(original.id) && without?.has(original.id) !== true)
      fileOriginal(record, original)
  }
  for (const original of also) fileOriginal(record, original)
  return record
}

/** A contested original counts under its own id, but has no number of its own: its place is that of the contest. */
function fileOriginal(record: RecordState, original: Entry): void {
  if (!record.firstOf.has(original.id)) fileVersion(record, original)
}

/** Lets what counts of an entry be collected. */
export function applyVersions(state: InvestigationState, { first, amendments, withdrawn }: Versions): void {
  if (withdrawn !== undefined) return
  applyEffective(state, effective(first, amendments))
}
