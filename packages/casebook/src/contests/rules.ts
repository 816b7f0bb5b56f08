import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import { disagreements } from './disagreements.ts'

/** A settlement is of two accounts that are open: one contested on arrival, or two in the record that differ. */
const settlesOpenOne: Rule<'contest.settled'> = ({ body }, { state, amends }) => {
  const { contested, against, decision } = body
  const before = state.contests.settled.get(contested)
  if (before !== undefined && before.id !== amends)
    return [statedIssue('body.contested', { expected: 'accounts not settled yet', received: before.body.decision })]
  if (state.contests.contested.has(contested)) return ofContested({ against, decision })
  const open = disagreements(state).some(({ first, second }) => second.id === contested && first.id === against)
  const same = before !== undefined && before.body.against === against
  if (open || same) return []
  return [issue('body.contested', { expected: 'one of two accounts that differ', received: contested })]
}

function ofContested(given: { against: string | undefined; decision: string }): Issue[] {
  const issues: Issue[] = []
  if (given.against !== undefined)
    issues.push(issue('body.against', { expected: 'nothing: the contest names it', received: given.against }))
  if (given.decision === 'both stand')
    issues.push(
      statedIssue('body.decision', {
        expected: '"first stands" or "second stands": the rules of the record do not let both',
        received: given.decision,
      }),
    )
  return issues
}

/** A settlement set right is still of the same two accounts. */
const staysOfSame: Rule<'contest.settled'> = ({ body }, { state, amends }) => {
  if (amends === undefined) return []
  const first = state.record.versions.get(amends)?.first
  if (first?.kind !== 'contest.settled' || first.body.contested === body.contested) return []
  return [issue('body.contested', { expected: first.body.contested, received: body.contested })]
}

export const contestsRules: Rules = { 'contest.settled': [settlesOpenOne, staysOfSame] }
