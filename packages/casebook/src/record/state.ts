import type { Entry } from '../entry/entry.ts'

/** All versions of one entry: the first, its amendments in order, and its withdrawal if it was withdrawn. */
export interface Versions {
  readonly first: Entry
  readonly amendments: Entry[]
  withdrawn?: Entry
}

export interface RecordState {
  /** every entry in the order of the record */
  readonly entries: Entry[]
  /** by id of the first version */
  readonly versions: Map<string, Versions>
  /** from the id of any version to the id of the first */
  readonly firstOf: Map<string, string>
}

export function emptyRecord(): RecordState {
  return { entries: [], versions: new Map(), firstOf: new Map() }
}

/** Files an entry under its versions. An amendment of something unknown stands as an entry of its own. */
export function fileEntry(state: RecordState, entry: Entry): void {
  state.entries.push(entry)
  const first = entry.corrects === undefined ? undefined : state.firstOf.get(entry.corrects.entry)
  const versions = first === undefined ? undefined : state.versions.get(first)
  if (first === undefined || versions === undefined) {
    state.firstOf.set(entry.id, entry.id)
    state.versions.set(entry.id, { first: entry, amendments: [] })
    return
  }
  state.firstOf.set(entry.id, first)
  if (entry.kind === 'entry.withdrawn') versions.withdrawn = entry
  else versions.amendments.push(entry)
}
