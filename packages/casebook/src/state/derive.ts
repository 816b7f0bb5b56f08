import type { Entry } from '../entry/entry.ts'
import { fileEntry, type Versions } from '../record/state.ts'
import { effective } from './effective.ts'
import { applyEffective, emptyState, type InvestigationState } from './investigation-state.ts'

/** The state that follows from a record's entries, in order: amendments take the place of what they amend, withdrawals leave it out. */
export function derive(investigation: string, entries: Iterable<Entry>): InvestigationState {
  const state = emptyState(investigation)
  for (const entry of entries) fileEntry(state.record, entry)
  for (const versions of state.record.versions.values()) applyVersions(state, versions)
  return state
}

/**
 * The state after more entries. Plain entries extend the given state in place (cost of the new ones only); an amendment may
 * change anything derived before it, so it derives afresh.
 */
export function extend(state: InvestigationState, entries: readonly Entry[]): InvestigationState {
  if (entries.some(({ corrects }) => corrects !== undefined))
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
