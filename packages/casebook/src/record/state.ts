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
  /** versions that count no more because a person settled two accounts, each with that settlement */
  readonly setAside: Map<string, Entry>
}

export function emptyRecord(): RecordState {
  return { entries: [], versions: new Map(), firstOf: new Map(), setAside: new Map() }
}

/** Takes an entry into the record and files it under its versions. */
export function fileEntry(state: RecordState, entry: Entry): void {
  state.entries.push(entry)
  fileVersion(state, entry)
}

/** Takes an entry into the record that a settlement of two accounts put aside: it stays there and counts no more. */
export function fileAside(state: RecordState, { entry, by }: { entry: Entry; by: Entry }): void {
  state.entries.push(entry)
  state.setAside.set(entry.id, by)
  const first = firstOf(state, entry)
  state.firstOf.set(entry.id, first ?? entry.id)
  if (first === undefined) state.versions.set(entry.id, { first: entry, amendments: [], withdrawn: by })
}

/** Files an entry under its versions. An amendment of something unknown stands as an entry of its own. */
export function fileVersion(state: RecordState, entry: Entry): void {
  const first = firstOf(state, entry)
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

function firstOf(state: RecordState, { corrects }: Entry): string | undefined {
  return corrects === undefined ? undefined : state.firstOf.get(corrects.entry)
}
