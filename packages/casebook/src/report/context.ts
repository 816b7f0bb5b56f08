import { componentName, kindWord } from '../building/labels.ts'
import { isOutlet } from '../building/water-system.ts'
import { partsOf } from '../custody/origin.ts'
import type { Head } from '../chain/link.ts'
import { type ChosenCriteria, chosenCriteria } from '../findings/chosen-criteria.ts'
import { type SampleRow, sampleRows } from '../findings/sample-rows.ts'
import { type FollowUpView, followUpView } from '../follow-up/follow-up-view.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { IsoDate } from '@rillmark/science/calendar/iso-date.ts'
import { type EntryNumbers, entryNumbers } from './entry-numbers.ts'
import type { NumberedSource, Variant } from './model.ts'
import { type PrivateTerms, privateTerms, WITHHELD, withheld } from './redaction.ts'

/** What every section works from: the record, its views computed once, and the one place that decides what is withheld. */
export interface ReportContext {
  readonly state: InvestigationState
  readonly head: Head
  readonly today: IsoDate
  readonly variant: Variant
  readonly redacted: boolean
  /** the units of the reader */
  readonly units: DisplayUnits
  readonly rows: readonly SampleRow[]
  readonly criteria: ChosenCriteria
  readonly followUp: FollowUpView
  readonly private: PrivateTerms
  /** numbers of an effective entry: its first version and, if amended, the version that counts */
  readonly numbersOf: EntryNumbers['of']
  readonly numberOfId: EntryNumbers['ofId']
  /** numbers of what laboratories reported on samples of these labels */
  readonly resultNumbers: (labels: readonly string[]) => number[]
  readonly sources: readonly NumberedSource[]
  /** the number of a source in the list, added when it is new */
  readonly cite: (source: { readonly source: string; readonly known: string }) => number
  /** something a person typed: as it is, or without what is private */
  readonly said: (text: string) => string
  /** a person at work */
  readonly worker: (person: { readonly name: string; readonly role: string }) => string
  /** a person of whom only a name or an office is known */
  readonly named: (name: string) => string
  /** a component by the name people use, or by kind, riser and floor */
  readonly place: (component: string) => string
  /** a place given in words, for instance by a plan or a laboratory */
  readonly placeWords: (place: { readonly words: string; readonly component?: string | undefined }) => string
}

/** Of which record the report speaks, to whom, on which day; the reader's units, those of the record unless told. */
export interface ReportOptions {
  readonly head: Head
  readonly variant: Variant
  readonly today: IsoDate
  readonly units?: DisplayUnits | undefined
}

export function reportContext(
  state: InvestigationState,
  { head, variant, today, units = METRIC_UNITS }: ReportOptions,
): ReportContext {
  const redacted = variant === 'redacted'
  const criteria = chosenCriteria(state)
  const numbers = entryNumbers(state.record)
  const terms = privateTerms(state)
  const sources: NumberedSource[] = []
  const place = redacted ? placeByPosition(state) : placeByName(state)
  return {
    state,
    head,
    today,
    variant,
    redacted,
    units,
    rows: sampleRows(state, criteria.kind === 'chosen' ? criteria.set : undefined),
    criteria,
    followUp: followUpView(state, today),
    private: terms,
    numbersOf: numbers.of,
    numberOfId: numbers.ofId,
    resultNumbers: (labels) =>
      numbers.of(
        ...labels
          .flatMap((label) => [label, ...partsOf(state, label)])
          .flatMap((label) => state.results.resultsByLabel.get(label) ?? []),
      ),
    sources,
    cite: citeInto(sources),
    said: (text) => (redacted ? withheld(text, terms) : text),
    worker: ({ name, role }) => (redacted ? withheld(role, terms) : `${name}, ${role}`),
    named: (name) => (redacted ? WITHHELD : name),
    place,
    placeWords: ({ words, component }) => {
      if (component !== undefined && state.building.working.component(component) !== undefined) return place(component)
      return redacted ? WITHHELD : words
    },
  }
}

function citeInto(sources: NumberedSource[]): ReportContext['cite'] {
  const known = new Map<string, number>()
  return ({ source, known: how }) => {
    const key = JSON.stringify([source, how])
    const number = known.get(key) ?? sources.length + 1
    if (!known.has(key)) sources.push({ number, citation: source, known: how })
    known.set(key, number)
    return number
  }
}

/** Parts by their names; a point of the pipes without a name of its own as the plan calls it, such as the return of a riser. */
function placeByName(state: InvestigationState): (id: string) => string {
  const titles = new Map<string, string>()
  for (const { body } of state.plan.rounds.values())
    for (const { component, title } of body.plan.stops) if (component !== undefined) titles.set(component, title)
  return (id) => {
    const component = state.building.working.component(id)
    if (component === undefined) return id
    return component.kind === 'junction' ? (titles.get(id) ?? componentName(component)) : componentName(component)
  }
}

/** Outlets are told apart by kind, riser, floor and a number in that place; plant keeps its kind. No room, no label. */
function placeByPosition(state: InvestigationState): (id: string) => string {
  const names = new Map<string, string>()
  const counts = new Map<string, number>()
  for (const component of state.building.system?.components ?? []) {
    const riser = component.riser === undefined ? '' : `, riser ${component.riser}`
    const floor = component.floor === undefined || !isOutlet(component) ? '' : `, floor ${component.floor}`
    const stem = `${riser}${floor}`
    const key = `${component.kind}${stem}`
    const number = (counts.get(key) ?? 0) + 1
    counts.set(key, number)
    names.set(component.id, `${kindWord(component.kind)} ${number}${stem}`)
  }
  return (id) => names.get(id) ?? WITHHELD
}
