import { CRITERIA_SETS, findCriteriaSet } from '../criteria/criteria-sets.ts'
import { type CriteriaSet, readCriteriaSet } from '../criteria/criteria-set.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

export type ChosenCriteria =
  | { readonly kind: 'none' }
  | { readonly kind: 'chosen'; readonly set: CriteriaSet; readonly own: boolean }
  /** the record names a version this program does not carry: shown, never replaced by another */
  | { readonly kind: 'missing'; readonly id: string; readonly version: string; readonly reason: string }

/** The criteria set in force: a built-in one in the version chosen, or the user's own from the record itself. */
export function chosenCriteria({ findings }: InvestigationState): ChosenCriteria {
  if (findings.criteria === undefined) return { kind: 'none' }
  const { criteria: id, version, own } = findings.criteria.body
  if (own !== undefined) {
    const read = readCriteriaSet(own)
    return read.ok
      ? { kind: 'chosen', set: read.value, own: true }
      : { kind: 'missing', id, version, reason: 'the set in the record cannot be read' }
  }
  const set = findCriteriaSet(id)
  if (set === undefined) return { kind: 'missing', id, version, reason: 'this program does not carry the set' }
  if (set.version !== version)
    return { kind: 'missing', id, version, reason: `this program carries version ${set.version}` }
  return { kind: 'chosen', set, own: false }
}

/** All sets a person can choose from: built in, and the own one in force. */
export function offeredCriteria(state: InvestigationState): readonly CriteriaSet[] {
  const chosen = chosenCriteria(state)
  return chosen.kind === 'chosen' && chosen.own ? [...CRITERIA_SETS, chosen.set] : CRITERIA_SETS
}
