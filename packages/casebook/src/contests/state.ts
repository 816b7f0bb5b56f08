import type { Entry } from '../entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Appliers, EffectiveEntry } from '../state/effective.ts'
import { originalOf } from './original-of.ts'

/** An entry that came too late to agree with the record, and how it was settled. */
export interface Contest {
  /** the second account, whole */
  readonly original: Entry
  readonly issues: readonly Issue[]
  /** ids of the first account */
  readonly against: readonly string[]
  readonly contested: EffectiveEntry<'entry.contested'>
}

export interface ContestsState {
  /** by the id of the contested original, in the order they came */
  readonly contested: Map<string, Contest>
  /** what persons settled, by the id of the second account */
  readonly settled: Map<string, EffectiveEntry<'contest.settled'>>
}

export const emptyContests = (): ContestsState => ({ contested: new Map(), settled: new Map() })

export const contestsAppliers: Appliers<ContestsState> = {
  'entry.contested': ({ contested }, entry) => {
    const { issues, against } = entry.body
    const original = originalOf(entry.body)
    if (!contested.has(original.id)) contested.set(original.id, { original, issues, against, contested: entry })
  },
  'contest.settled': ({ settled }, entry) => {
    settled.set(entry.body.contested, entry)
  },
}
