import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { EntryOf } from '../entry/entry.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { supposing } from '../state/suppose.ts'
import type { Judge } from './judge.ts'

/**
 * What the record would still say against the second account once the first is set aside: a sample is never in two places, whoever
 * decides. Nothing to say where the first stands.
 */
export function standingIssues(
  { body }: EntryOf<'contest.settled'>,
  { state, judge }: { state: InvestigationState; judge: Judge },
): readonly Issue[] {
  const contest = state.contests.contested.get(body.contested)
  if (contest === undefined || body.decision !== 'second stands') return []
  const without = new Set(contest.against)
  const found = judge(supposing(state)({ without }), contest.original)
  return found.map(({ path, expected, received }) => ({ path: `body.contested ${path}`, expected, received }))
}
