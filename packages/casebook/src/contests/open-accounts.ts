import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Entry } from '../entry/entry.ts'
import { KINDS } from '../entry/kinds.ts'
import { entryWords } from '../record/entry-words.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { disagreements } from './disagreements.ts'

/** One account: what it says, by whom, on which device, when. */
export interface Account {
  readonly id: string
  readonly title: string
  readonly words: string
  readonly author: string
  /** the name the device joined with, or its id */
  readonly device: string
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
  readonly at?: { readonly round: string; readonly stop: string }
}

/** Every pair of accounts that waits for a person, in the order they came. */
export function openAccounts(state: InvestigationState): readonly OpenAccounts[] {
  const { contests, record } = state
  const entryOf = new Map(record.entries.map((entry) => [entry.id, entry]))
  for (const { original } of contests.contested.values()) entryOf.set(original.id, original)
  const account = (id: string): Account[] => {
    const entry = entryOf.get(id)
    return entry === undefined ? [] : [accountOf(entry, state)]
  }
  const contested = [...contests.contested.values()]
    .filter(({ original }) => !contests.settled.has(original.id))
    .map(({ original, against, issues }) => ({
      standing: 'contested' as const,
      first: against.flatMap(account),
      second: accountOf(original, state),
      issues,
      ...stopOf(original.body),
    }))
  const differing = disagreements(state).flatMap(({ first, second, round, stop }) =>
    account(second.id).map((told) => ({
      standing: 'differ' as const,
      first: account(first.id),
      second: told,
      issues: [],
      at: { round, stop },
    })),
  )
  return [...contested, ...differing]
}

function accountOf(entry: Entry, { devices }: InvestigationState): Account {
  const { id, author, device, instant, offset, kind } = entry
  const name = devices.get(device)?.name ?? device
  return { id, title: KINDS[kind].title, words: entryWords(entry), author, device: name, instant, offset }
}

function stopOf(body: object): { at?: { round: string; stop: string } } {
  const { round, stop } = body as { round?: unknown; stop?: unknown }
  return typeof round === 'string' && typeof stop === 'string' ? { at: { round, stop } } : {}
}
