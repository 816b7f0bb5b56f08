import { type CriteriaSet, readCriteriaSet } from '../criteria/criteria-set.ts'
import { CRITERIA_SETS } from '../criteria/criteria-sets.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** The criteria set of an id and version: a built-in one, or one of the user's own that the record ever held. */
export function criteriaOf(
  state: InvestigationState,
  { criteria, version }: { criteria: string; version: string },
): CriteriaSet | undefined {
  return [...CRITERIA_SETS, ...ownSets(state)].find((set) => set.id === criteria && set.version === version)
}

/** Every set whose follow-up rule can be chosen, the built-in ones first. */
export function setsWithFollowUp(state: InvestigationState): CriteriaSet[] {
  return [...CRITERIA_SETS, ...ownSets(state)].filter(({ followUp }) => followUp !== undefined)
}

/** The latest first; choosing another set later does not take a rule away from a follow-up that runs by it. */
function ownSets(state: InvestigationState): CriteriaSet[] {
  const chosen = state.record.entries.filter(
    (entry) => entry.kind === 'criteria.chosen' && entry.body.own !== undefined,
  )
  return chosen.toReversed().flatMap((entry) => {
    const read = readCriteriaSet(entry.kind === 'criteria.chosen' ? entry.body.own : undefined)
    return read.ok ? [read.value] : []
  })
}
