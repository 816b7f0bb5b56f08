import type { Entry } from '../entry/entry.ts'
import type { Kind } from '../entry/kinds.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { supposing } from '../state/suppose.ts'
import type { Judge } from './judge.ts'
import { relatedTo } from './related.ts'

/** What says nothing of the investigation itself is no account of anything. */
const NO_ACCOUNT: ReadonlySet<Kind> = new Set(['device.joined', 'device.revoked', 'entry.contested', 'contest.settled'])

const MOST_AGAINST = 8

/**
 * Whether an entry the record speaks against is the second account of something: its writer had not seen what another device wrote. Gives
 * the entries without which it would have been taken, as far as they can be told; undefined where it is simply refused.
 */
export function contestOf(
  entry: Entry,
  { state, judge }: { state: InvestigationState; judge: Judge },
): { readonly against: readonly string[] } | undefined {
  const unseen = unseenBy(entry, state)
  if (unseen.length === 0) return undefined
  const { contests } = state
  const also = [...contests.contested.values()]
    .filter(({ original }) => original.device === entry.device && !contests.settled.has(original.id))
    .map(({ original }) => original)
  const suppose = supposing(state)
  const tried = new Map<string, boolean>()
  const passes = (without: readonly string[]): boolean => {
    const key = without.join()
    const known = tried.get(key) ?? judge(suppose({ without: new Set(without), also }), entry).length === 0
    tried.set(key, known)
    return known
  }
  // with nothing left out or added it is the record as it is, which speaks against it
  if (also.length > 0 && passes([])) return { against: [] }
  const related = relatedTo(entry, { accounts: unseen, record: state.record }).map(({ id }) => id)
  const among = related.length > 0 && passes(related) ? related : unseen.map(({ id }) => id)
  return { against: among !== related && !passes(among) ? [] : againstOf(among, passes) }
}

/** Accounts of other devices that count and came into the record after what the writer had seen, in order. */
function unseenBy(entry: Entry, { record, contests }: InvestigationState): Entry[] {
  const { seen, device, kind } = entry
  if (seen === undefined || NO_ACCOUNT.has(kind)) return []
  const standing = new Map([...contests.settled.values()].map(({ id, body }) => [id, body.contested]))
  return record.entries.slice(seen).flatMap((each) => {
    const original = contests.contested.get(standing.get(each.id) ?? '')?.original
    const account = original !== undefined && record.firstOf.has(original.id) ? original : each
    return account.device === device || NO_ACCOUNT.has(account.kind) || record.setAside.has(account.id) ? [] : [account]
  })
}

/**
 * The first that turns "taken" into "refused" when they are put back one after another; then the next, until what is left of them speaks
 * for nothing. Each is found by halving, so a long absence costs little more than a short one.
 *
 * @param unseen without all of which it passes, and with all of which it does not
 */
function againstOf(unseen: readonly string[], passes: (without: readonly string[]) => boolean): readonly string[] {
  const against: string[] = []
  do {
    let [taken, refused] = [0, unseen.length]
    while (refused - taken > 1) {
      const middle = Math.floor((taken + refused) / 2)
      if (passes([...against, ...unseen.slice(middle)])) taken = middle
      else refused = middle
    }
    const turning = unseen[refused - 1]
    if (turning === undefined || against.includes(turning)) break
    against.push(turning)
  } while (against.length < MOST_AGAINST && !passes(against))
  return against
}
