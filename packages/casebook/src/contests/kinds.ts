import * as z from 'zod'
import { envelopeSchema } from '../entry/entry.ts'
import { entryId, text } from '../entry/fields.ts'

const MOST_ISSUES = 50
const MOST_AGAINST = 20

/** What spoke against an entry when it arrived, in the words it was judged with. */
const heldAgainst = z.strictObject({ path: z.string(), expected: z.string(), received: z.string() })

export const DECISIONS = ['first stands', 'second stands', 'both stand'] as const
export type ContestDecision = (typeof DECISIONS)[number]

export const CONTESTS_KINDS = {
  /**
   * An entry that came too late to agree with the record: its writer did not know what another device had written. It is kept whole, as
   * it was signed, and counts for nothing until a person settles the two accounts.
   */
  'entry.contested': {
    step: 'record',
    title: 'Two accounts',
    body: z.strictObject({
      entry: envelopeSchema,
      issues: z.array(heldAgainst).min(1).max(MOST_ISSUES),
      /** ids of the entries without which it would have been taken; the first account */
      against: z.array(entryId).max(MOST_AGAINST).default([]),
      /** how far the clock of its device was ahead when it came */
      clockAheadS: z.int().optional(),
    }),
  },
  /** A person says which account stands. `both stand` is for two entries that are in the record and differ. */
  'contest.settled': {
    step: 'record',
    title: 'Accounts settled',
    body: z.strictObject({
      /** id of the contested original, or of the later of two entries that differ */
      contested: entryId,
      /** the earlier of two entries that differ; absent where the original was contested on arrival */
      against: entryId.optional(),
      decision: z.enum(DECISIONS),
      reason: text(1000),
    }),
  },
} as const
