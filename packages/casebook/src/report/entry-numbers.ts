import type { RecordState } from '../record/state.ts'

export interface EntryNumbers {
  /** numbers of these effective entries: the first version of each and, where it was amended, the version that counts; rising, each once */
  readonly of: (...entries: readonly ({ readonly id: string } | undefined)[]) => number[]
  /** the number of one entry by its id, whatever version it is */
  readonly ofId: (id: string) => number | undefined
}

/** Where entries stand in the record, counted from 1 as the links are. */
export function entryNumbers({ entries, versions }: RecordState): EntryNumbers {
  const places = new Map<string, number>()
  for (const [index, entry] of entries.entries()) {
    places.set(entry.id, index + 1)
    // a contested original has no number of its own: its place is that of the contest
    if (entry.kind === 'entry.contested') places.set(entry.body.entry.id, index + 1)
  }
  const of: EntryNumbers['of'] = (...wanted) => {
    const ids = wanted.flatMap((entry) => {
      if (entry === undefined) return []
      const latest = versions.get(entry.id)?.amendments.at(-1)?.id
      return latest === undefined ? [entry.id] : [entry.id, latest]
    })
    return [...new Set(ids.flatMap((id) => places.get(id) ?? []))].sort((a, b) => a - b)
  }
  return { of, ofId: (id) => places.get(id) }
}

/** Characters that a column of entries still holds in two lines; more are told by their count and extent. */
const MOST_CHARACTERS = 24

export interface EntryRuns {
  /** first and last of each run of neighbours; where shortened, one pair that spans them all */
  readonly runs: readonly (readonly [number, number])[]
  readonly shortened: boolean
}

/** Rising entry numbers as runs of neighbours; many scattered ones as one span. */
export function entryRuns(numbers: readonly number[]): EntryRuns {
  const runs: [number, number][] = []
  for (const number of numbers) {
    const last = runs.at(-1)
    if (last !== undefined && number === last[1] + 1) last[1] = number
    else runs.push([number, number])
  }
  const [first, last] = [runs[0], runs.at(-1)]
  if (runWords(runs).length <= MOST_CHARACTERS || runs.length < 2 || first === undefined || last === undefined)
    return { runs, shortened: false }
  return { runs: [[first[0], last[1]]], shortened: true }
}

/** Entry numbers as they are printed: `12, 14–17`; many scattered ones as `48 from 201 to 340`. */
export function entryNumberWords(numbers: readonly number[]): string {
  const { runs, shortened } = entryRuns(numbers)
  if (shortened) return runs.map(([from, to]) => `${numbers.length} from ${from} to ${to}`).join('')
  return runWords(runs)
}

const runWords = (runs: EntryRuns['runs']): string =>
  runs.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`)).join(', ')

/** The same after a sentence: `entry 12`, `entries 12, 14–17`, `48 entries from 201 to 340`. */
export function entriesNamed(numbers: readonly number[]): string {
  const { shortened } = entryRuns(numbers)
  if (numbers.length === 0) return ''
  if (shortened) return entryNumberWords(numbers).replace(' from', ' entries from')
  return `${numbers.length === 1 ? 'entry' : 'entries'} ${entryNumberWords(numbers)}`
}
