import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Entry } from '../entry/entry.ts'
import { KINDS } from '../entry/kinds.ts'
import { entryWords } from '../record/entry-words.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { visitKey } from '../fieldwork/state.ts'
import { type StopAt, type StopTitles, stopTitles } from '../fieldwork/stops.ts'
import { disagreements } from './disagreements.ts'

/** One account: what it says, by whom, on which device, when. */
export interface Account {
  readonly id: string
  readonly title: string
  readonly words: string
  readonly author: string
  /** the name the device joined with, or its id */
  readonly device: string
  readonly deviceId: string
  readonly instant: string
  readonly offset: string
}

/** Accounts of one thing that a person has not settled yet. */
export interface OpenAccounts {
  /** `contested`: the second came too late to agree with the record and counts for nothing; `differ`: both count */
  readonly standing: 'contested' | 'differ'
  /** empty where no single entry could be named */
  readonly first: readonly Account[]
  readonly second: Account
  /** what spoke against the second */
  readonly issues: readonly Issue[]
  /** the stop it is about, where it is about one */
  readonly at?: StopAt
  /** that stop's title */
  readonly place?: string
}

/** Every pair of accounts that waits for a person, in the order they came. */
export function openAccounts(state: InvestigationState): readonly OpenAccounts[] {
  const { contests, record } = state
  const titles = stopTitles(state)
  const entryOf = new Map(record.entries.map((entry) => [entry.id, entry]))
  for (const { original } of contests.contested.values()) entryOf.set(original.id, original)
  const account = (id: string): Account[] => {
    const entry = entryOf.get(id)
    return entry === undefined ? [] : [accountOf(entry, { state, titles })]
  }
  const contested = [...contests.contested.values()]
    .filter(({ original }) => !contests.settled.has(original.id))
    .map(({ original, against, issues }) => ({
      standing: 'contested' as const,
      first: against.flatMap(account),
      second: accountOf(original, { state, titles }),
      issues,
      ...stopOf(original.body, titles),
    }))
  const differing = disagreements(state).flatMap(({ first, second, round, stop }) =>
    account(second.id).map((told) => ({
      standing: 'differ' as const,
      first: account(first.id),
      second: told,
      issues: [],
      ...stopOf({ round, stop }, titles),
    })),
  )
  return [...contested, ...differing]
}

function accountOf(entry: Entry, { state, titles }: { state: InvestigationState; titles: StopTitles }): Account {
  const { id, author, device, instant, offset, kind } = entry
  const name = state.devices.get(device)?.name ?? device
  const words = entryWords(entry, titles)
  return { id, title: KINDS[kind].title, words, author, device: name, deviceId: device, instant, offset }
}

function stopOf(body: object, titles: StopTitles): Pick<OpenAccounts, 'at' | 'place'> {
  const { round, stop } = body as { round?: unknown; stop?: unknown }
  if (typeof round !== 'string' || typeof stop !== 'string') return {}
  const place = titles.get(visitKey({ round, stop }))
  return { at: { round, stop }, ...(place === undefined ? {} : { place }) }
}
