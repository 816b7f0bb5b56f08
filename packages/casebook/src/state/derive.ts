import { settlementsIn } from '../contests/settlements.ts'
import type { Entry } from '../entry/entry.ts'
import { fileEntry } from '../record/state.ts'
import { applyVersions, type Change, filed } from './filed.ts'
import { effective } from './effective.ts'
import { applyEffective, emptyState, type InvestigationState } from './investigation-state.ts'

/**
 * The state that follows from a record's entries, in order: amendments take the place of what they amend, withdrawals leave it out, and
 * where two accounts were settled, what does not stand is left out and what stands counts from there on.
 */
export function derive(investigation: string, entries: Iterable<Entry>): InvestigationState {
  return deriveSupposed(investigation, { entries })
}

/** The state that would follow from another record. `suppose` gives the same of a record whose state is there, and does less. */
export function deriveSupposed(
  investigation: string,
  { entries, ...change }: Change & { readonly entries: Iterable<Entry> },
): InvestigationState {
  const all = [...entries]
  const state = { ...emptyState(investigation), record: filed(all, { ...change, settlements: settlementsIn(all) }) }
  for (const versions of state.record.versions.values()) applyVersions(state, versions)
  return state
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
