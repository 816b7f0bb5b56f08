import type { BodyOf } from '../entry/kinds.ts'
import type { ContestDecision } from './kinds.ts'
import type { Account, OpenAccounts } from './open-accounts.ts'

/** What two devices told of one stop, to be settled as a whole or one by one; of anything else each pair alone. */
export interface ToldTwice {
  readonly key: string
  readonly pairs: readonly OpenAccounts[]
}

/** Accounts that wait for a person, those of one visit by the same two devices together, in the order they came. */
export function toldTwice(open: readonly OpenAccounts[]): readonly ToldTwice[] {
  const together = new Map<string, OpenAccounts[]>()
  for (const pair of open) {
    const key = keyOf(pair)
    together.set(key, [...(together.get(key) ?? []), pair])
  }
  return [...together].map(([key, pairs]) => ({ key, pairs }))
}

function keyOf({ at, first, second }: OpenAccounts): string {
  const devices = new Set(first.map(({ deviceId }) => deviceId))
  if (at === undefined || devices.size !== 1) return second.id
  return JSON.stringify([at.round, at.stop, ...devices, second.deviceId])
}

/** What counts no more once it is so decided, each once; a contested account that does not stand never did count. */
export function countsNoMore(pairs: readonly OpenAccounts[], decision: ContestDecision): readonly Account[] {
  if (decision === 'both stand') return []
  const aside = pairs.flatMap(({ standing, first, second }) =>
    decision === 'second stands' ? first : standing === 'differ' ? [second] : [],
  )
  return [...new Map(aside.map((account) => [account.id, account])).values()]
}

/** The settlements that say so, in the order the second accounts were written. What one of them sets aside needs no other. */
export function settlementsOf(
  pairs: readonly OpenAccounts[],
  { decision, reason }: { readonly decision: ContestDecision; readonly reason: string },
): readonly BodyOf<'contest.settled'>[] {
  const contested = pairs.filter(({ standing }) => standing === 'contested')
  const aside = new Set(countsNoMore(contested, decision).map(({ id }) => id))
  return [
    ...contested.map(({ second }) => ({ contested: second.id, decision, reason })),
    ...pairs.flatMap(({ standing, first, second }) => {
      const [against] = first
      if (standing !== 'differ' || against === undefined || aside.has(against.id)) return []
      return [{ contested: second.id, against: against.id, decision, reason }]
    }),
  ]
}
