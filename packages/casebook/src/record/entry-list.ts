import type { Entry } from '../entry/entry.ts'
import { KINDS } from '../entry/kinds.ts'
import type { Step } from '../entry/steps.ts'
import { visitKey } from '../fieldwork/state.ts'
import { type StopTitles, stopTitles } from '../fieldwork/stops.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { entryWords } from './entry-words.ts'

/**
 * How an entry stands beside its other versions: it counts as written; a later version took its place; it is itself such a version
 * (and counts, or was replaced in turn); it was withdrawn; it is a withdrawal; it is one of two accounts and another stands; it carries an
 * account that nobody has settled yet.
 */
export type EntryStanding = 'counts' | 'amended' | 'amendment' | 'withdrawn' | 'withdrawal' | 'set aside' | 'contested'

export interface ListedEntry {
  /** its place in the record, counted from 1 */
  readonly number: number
  readonly entry: Entry
  readonly step: Step
  readonly title: string
  /** title of the stop it is about */
  readonly place?: string | undefined
  readonly standing: EntryStanding
  /** number of the entry it corrects, where it corrects one of this record */
  readonly corrects?: number | undefined
  /** carries no signature where others of the record do */
  readonly unsigned?: true
}

/** Every entry of the record in its order, each with how it stands. */
export function listEntries(state: InvestigationState): readonly ListedEntry[] {
  const { entries } = state.record
  const titles = stopTitles(state)
  const someSigned = entries.some(({ signature }) => signature !== undefined)
  const numberOf = new Map(entries.map(({ id }, index) => [id, index + 1]))
  return entries.map((entry, index) => ({
    number: index + 1,
    entry,
    step: KINDS[entry.kind].step,
    title: KINDS[entry.kind].title,
    place: placeOf(entry.body, titles),
    standing: standingOf(entry, state),
    corrects: entry.corrects === undefined ? undefined : numberOf.get(entry.corrects.entry),
    ...(someSigned && entry.signature === undefined ? { unsigned: true as const } : {}),
  }))
}

function placeOf(body: Entry['body'], titles: StopTitles): string | undefined {
  const { round, stop } = body as { round?: unknown; stop?: unknown }
  return typeof round === 'string' && typeof stop === 'string' ? titles.get(visitKey({ round, stop })) : undefined
}

function standingOf(entry: Entry, { record, contests }: InvestigationState): EntryStanding {
  if (record.setAside.has(entry.id)) return 'set aside'
  if (entry.kind === 'entry.contested') return contests.settled.has(entry.body.entry.id) ? 'counts' : 'contested'
  if (entry.kind === 'entry.withdrawn') return 'withdrawal'
  const versions = record.versions.get(record.firstOf.get(entry.id) ?? '')
  if (versions === undefined) return 'counts'
  if (versions.withdrawn !== undefined) return 'withdrawn'
  const latest = versions.amendments.at(-1) ?? versions.first
  if (latest.id !== entry.id) return 'amended'
  return versions.first.id === entry.id ? 'counts' : 'amendment'
}

export interface EntryFilter {
  readonly step?: Step | undefined
  readonly author?: string | undefined
  /** words that must all occur, in any order and case, in number, title, words, place, author, device, reason or id */
  readonly text?: string | undefined
  /** only what was corrected, and the corrections */
  readonly correctedOnly?: boolean | undefined
}

/** The entries that pass every part of a filter, newest first. */
export function filterEntries(listed: readonly ListedEntry[], filter: EntryFilter): readonly ListedEntry[] {
  const words = (filter.text ?? '').toLowerCase().split(/\s+/).filter(Boolean)
  return listed
    .filter(
      (each) =>
        (filter.step === undefined || each.step === filter.step) &&
        (filter.author === undefined || each.entry.author === filter.author) &&
        (filter.correctedOnly !== true || each.standing !== 'counts') &&
        (words.length === 0 || holdsAll(searchText(each), words)),
    )
    .toReversed()
}

function holdsAll(text: string, words: readonly string[]): boolean {
  return words.every((word) => text.includes(word))
}

function searchText({ number, entry, title, place = '' }: ListedEntry): string {
  const { id, author, device, corrects } = entry
  return `${number} ${title} ${entryWords(entry)} ${place} ${author} ${device} ${corrects?.reason ?? ''} ${id}`.toLowerCase()
}

/** The entry that an address names: by its number in the record or by its id. */
export function findListed(listed: readonly ListedEntry[], asked: string): ListedEntry | undefined {
  if (/^\d+$/.test(asked)) return listed[Number(asked) - 1]
  return listed.find(({ entry }) => entry.id === asked)
}
