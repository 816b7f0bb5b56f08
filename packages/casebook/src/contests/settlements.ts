import type { Entry, EntryOf } from '../entry/entry.ts'
import { originalOf } from './original-of.ts'

type Settled = EntryOf<'contest.settled'>

/** What persons decided about accounts that differ, as it bears on what counts. */
export interface Settlements {
  /** ids of entries that count no more, each with the settlement that put it aside */
  readonly setAside: ReadonlyMap<string, Settled>
  /** contested originals that count, by the id of the settlement from which on they do */
  readonly standing: ReadonlyMap<string, Entry>
}

const NONE: Settlements = { setAside: new Map(), standing: new Map() }

/** Reads the settlements in a record: the latest version of each that was not withdrawn. */
export function settlementsIn(entries: readonly Entry[]): Settlements {
  const decisions = decisionsIn(entries)
  if (decisions.length === 0) return NONE
  const contested = contestedIn(entries)
  const setAside = new Map<string, Settled>()
  const standing = new Map<string, Entry>()
  for (const { first, body } of decisions) {
    const contest = contested.get(body.contested)
    const aside = contest === undefined ? pairAside(body) : body.decision === 'second stands' ? contest.against : []
    for (const id of aside) setAside.set(id, first)
    if (contest !== undefined && body.decision === 'second stands') standing.set(first.id, contest.original)
  }
  return { setAside, standing }
}

interface DecisionMade {
  readonly first: Settled
  body: Settled['body']
}

function decisionsIn(entries: readonly Entry[]): readonly DecisionMade[] {
  const made = new Map<string, DecisionMade>()
  const firstOf = new Map<string, string>()
  for (const entry of entries) {
    if (entry.kind !== 'contest.settled' && entry.kind !== 'entry.withdrawn') continue
    const first = entry.corrects === undefined ? undefined : firstOf.get(entry.corrects.entry)
    const earlier = first === undefined ? undefined : made.get(first)
    if (entry.kind === 'entry.withdrawn') made.delete(first ?? '')
    else if (first === undefined) made.set(entry.id, { first: entry, body: entry.body })
    else if (earlier !== undefined) earlier.body = entry.body
    if (entry.kind === 'contest.settled') firstOf.set(entry.id, first ?? entry.id)
  }
  return [...made.values()]
}

function contestedIn(
  entries: readonly Entry[],
): Map<string, { readonly original: Entry; readonly against: readonly string[] }> {
  const contested = new Map<string, { original: Entry; against: readonly string[] }>()
  for (const entry of entries) {
    if (entry.kind !== 'entry.contested' || contested.has(entry.body.entry.id)) continue
    contested.set(entry.body.entry.id, { original: originalOf(entry.body), against: entry.body.against })
  }
  return contested
}

/** Of two entries that are both in the record, the one that does not stand. */
function pairAside({ contested, against, decision }: Settled['body']): readonly string[] {
  if (against === undefined || decision === 'both stand') return []
  return [decision === 'first stands' ? contested : against]
}
