import { settlementsIn } from '../contests/settlements.ts'
import type { Entry } from '../entry/entry.ts'
import { fileAside, fileEntry, fileVersion, type Versions } from '../record/state.ts'
import { effective } from './effective.ts'
import { applyEffective, emptyState, type InvestigationState } from './investigation-state.ts'

/** Another record than the one there is: what would follow if some entries were missing, or others counted too. */
export interface Supposed {
  readonly entries: Iterable<Entry>
  readonly without?: ReadonlySet<string>
  readonly also?: readonly Entry[]
}

/**
 * The state that follows from a record's entries, in order: amendments take the place of what they amend, withdrawals leave it out, and
 * where two accounts were settled, what does not stand is left out and what stands counts from there on.
 */
export function derive(investigation: string, entries: Iterable<Entry>): InvestigationState {
  return deriveSupposed(investigation, { entries })
}

/** The state that would follow from another record. */
export function deriveSupposed(investigation: string, { entries, without, also = [] }: Supposed): InvestigationState {
  const state = emptyState(investigation)
  const all = [...entries]
  const { setAside, standing } = settlementsIn(all)
  for (const entry of all) {
    if (without?.has(entry.id) === true) continue
    const by = setAside.get(entry.id)
    if (by === undefined) fileEntry(state.record, entry)
    else fileAside(state.record, { entry, by })
    const original = standing.get(entry.id)
    if (original !== undefined && !setAside.has(original.id) && without?.has(original.id) !== true)
      fileOriginal(state, original)
  }
  for (const original of also) fileOriginal(state, original)
  for (const versions of state.record.versions.values()) applyVersions(state, versions)
  return state
}

/** A contested original counts under its own id, but has no number of its own: its place is that of the contest. */
function fileOriginal({ record }: InvestigationState, original: Entry): void {
  if (!record.firstOf.has(original.id)) fileVersion(record, original)
}

/**
 * The state after more entries. Plain entries extend the given state in place (cost of the new ones only); an amendment or the settling
 * of two accounts may change anything derived before it, so it derives afresh.
 */
export function extend(state: InvestigationState, entries: readonly Entry[]): InvestigationState {
  if (entries.some(({ corrects, kind }) => corrects !== undefined || kind === 'contest.settled'))
    return derive(state.investigation, [...state.record.entries, ...entries])
  for (const entry of entries) {
    fileEntry(state.record, entry)
    applyEffective(state, effective(entry))
  }
  return state
}

function applyVersions(state: InvestigationState, { first, amendments, withdrawn }: Versions): void {
  if (withdrawn !== undefined) return
  applyEffective(state, effective(first, amendments))
}
