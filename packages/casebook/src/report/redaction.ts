import { componentName, kindWord } from '../building/labels.ts'
import { COMPONENT_KINDS, isOutlet } from '../building/water-system.ts'
import type { Entry } from '../entry/entry.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { ReportModel } from './model.ts'

export const WITHHELD = '[withheld]'

/** What the redacted variant says it leaves out. */
export const TAKEN_OUT: readonly string[] = [
  'Case codes, onset dates, incubation windows, exposures and places of stay; cases are counted by classification and month of onset.',
  'Notes on cases, and which sampling points were chosen because of a case.',
  'Room numbers, names of rooms and labels of outlets; places are given by kind, riser and floor.',
  'Names of workers and of the people who wrote entries; custody shows roles only.',
  'Who answers for a measure, who proved it, and to whom a report was issued.',
  'Codes of isolates and the link between an isolate and a case code.',
  'Photographs and what they show.',
]

/** Words of the record that may not stand in a redacted report. */
export interface PrivateTerms {
  /** case codes, full names, rooms and places of stay, longest first; replaced wherever they stand as words of their own */
  readonly anywhere: readonly string[]
  /** room numbers, onset dates and unnumbered places; replaced in what people typed, since they may be innocent elsewhere */
  readonly inTypedText: readonly string[]
  /** single names as they are written; the same letters in lower case are a word like any other */
  readonly nameParts: readonly string[]
}

const SHORTEST_ANYWHERE = 3
const SHORTEST_NAME_PART = 3

export function privateTerms(state: InvestigationState): PrivateTerms {
  const names = namesIn(state)
  const cases = [...state.cases.cases.values()]
  const outlets = (state.building.system?.components ?? []).filter(isOutlet)
  const rooms = outlets.flatMap(({ room }) => room ?? [])
  const places = accountsIn(state).flatMap((entry) => (entry.kind === 'exposure.recorded' ? [entry.body.place] : []))
  const anywhere = [
    ...everCaseCodes(state),
    ...[...state.results.isolates.values()].map(({ body }) => body.code),
    ...names.filter(isSeveralWords),
    ...places.filter(isNumbered),
    ...outlets.flatMap((one) => (one.room === undefined && one.label === undefined ? [] : [componentName(one)])),
    ...rooms.map((room) => `room ${room}`),
    ...cases.flatMap(({ body }) => body.notes ?? []),
    ...state.cases.exposures.flatMap(({ body }) => body.notes ?? []),
  ]
  const parts = names.filter(isPersonal).flatMap((name) => name.split(/[\s,.;&]+/))
  return {
    anywhere: longestFirst(anywhere.filter((term) => term.length >= SHORTEST_ANYWHERE)),
    nameParts: longestFirst(parts.filter((part) => part.length >= SHORTEST_NAME_PART)),
    inTypedText: longestFirst([
      ...places.filter((place) => !KIND_WORDS.has(place.toLowerCase())),
      ...rooms,
      ...cases.flatMap(({ body }) => body.onsetDate ?? []),
    ]),
  }
}

/** "T. Okoro" and "Okoro, Vale" are names of people; "the health board" is an office, and its words are words like any other. */
const isPersonal = (name: string): boolean => name.split(/[\s,;&]+/).every((word) => /^\p{Lu}/u.test(word))
const isSeveralWords = (name: string): boolean => /\s/.test(name.trim())
const isNumbered = (place: string): boolean => /\d/.test(place)

/** "Shower" as a place of exposure names nothing private. */
const KIND_WORDS: ReadonlySet<string> = new Set(COMPONENT_KINDS.map(kindWord))

/** A text someone typed, without what is private. A room is also known by the word before its number. */
export function withheld(text: string, terms: PrivateTerms): string {
  const known = replaced(replaced(text, terms.anywhere), terms.inTypedText)
  const names = patternOf(terms.nameParts, 'gu')
  return (names === undefined ? known : known.replaceAll(names, WITHHELD)).replaceAll(ROOM, `$1 ${WITHHELD}`)
}

const ROOM = /\b(rooms?|rm\.?|flats?|apartments?|beds?|wards?|bays?|cabins?)\s+(?:no\.?\s*)?[A-Z]{0,2}\d+[A-Za-z]?\b/giu

/** The model once more without private words, whatever a section let through. Fixed titles of the program are left as they are. */
export function cleaned(model: ReportModel, terms: PrivateTerms): ReportModel {
  const pattern = patternOf(terms.anywhere)
  if (pattern === undefined) return model
  const clean = (value: unknown): unknown => {
    if (typeof value === 'string') return value.replaceAll(pattern, WITHHELD)
    if (Array.isArray(value)) return value.map(clean)
    if (typeof value !== 'object' || value === null) return value
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, KEPT.has(key) ? inner : clean(inner)]))
  }
  return clean(model) as ReportModel
}

/** Drawn from a description that is stripped already, or fixed words of the program, or identity of the record itself. */
const KEPT: ReadonlySet<string> = new Set([
  'svg',
  'columns',
  'caption',
  'takenOut',
  'head',
  'format',
  'id',
  'block',
  'citation',
])

/** Every entry of the record, those too that came as second accounts. */
function accountsIn({ record }: InvestigationState): Entry[] {
  return record.entries.flatMap((entry) =>
    entry.kind === 'entry.contested' ? [entry, entry.body.entry as Entry] : [entry],
  )
}

/** Every code a case ever had, also under versions since amended or withdrawn. */
function everCaseCodes(state: InvestigationState): string[] {
  return accountsIn(state).flatMap((entry) =>
    entry.kind === 'case.recorded'
      ? [entry.body.code]
      : entry.kind === 'exposure.recorded'
        ? [entry.body.caseCode]
        : [],
  )
}

/** Every person's name the record holds, wherever it stands. */
function namesIn(state: InvestigationState): string[] {
  return accountsIn(state).flatMap((entry) => {
    const { author } = entry
    switch (entry.kind) {
      case 'consignment.handed-over':
        return [author, entry.body.from.name, entry.body.to.name]
      case 'consignment.received':
        return [author, entry.body.receivedBy.name]
      case 'seal.opened':
        return [author, entry.body.by.name]
      case 'measure.achieved':
        return [author, entry.body.by]
      case 'sample.registered':
        return [author, entry.body.takenBy]
      case 'plan.adopted':
        return [author, ...entry.body.teams]
      case 'measure.ordered':
        return [author, entry.body.owner]
      case 'report.issued':
        return [author, entry.body.issuedTo]
      case 'device.joined':
        return [author, entry.body.name]
      default:
        return [author]
    }
  })
}

function longestFirst(terms: readonly string[]): string[] {
  return [...new Set(terms.map((term) => term.trim()))]
    .filter((term) => term !== '')
    .sort((a, b) => b.length - a.length)
}

function replaced(text: string, terms: readonly string[]): string {
  const pattern = patternOf(terms)
  return pattern === undefined ? text : text.replaceAll(pattern, WITHHELD)
}

/** Terms as words of their own, whatever the case of their letters unless told otherwise. */
function patternOf(terms: readonly string[], flags = 'giu'): RegExp | undefined {
  if (terms.length === 0) return undefined
  const words = terms.map((term) =>
    term.replaceAll(/[.*+?^${}()|[\]\\/]/g, String.raw`\$&`).replaceAll(/\s+/g, String.raw`\s+`),
  )
  return new RegExp(String.raw`(?<![\p{L}\p{N}])(?:${words.join('|')})(?![\p{L}\p{N}])`, flags)
}
