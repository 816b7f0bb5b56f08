import { type FloorNames, floorWords } from '../building/floor-words.ts'
import { componentName } from '../building/labels.ts'
import type { Component } from '../building/water-system.ts'
import type { CriteriaSet } from '../criteria/criteria-set.ts'
import { type Judgement, judge } from '../criteria/judge.ts'
import { type Circuit, SAMPLE_KIND_WORDS, type SampleKind } from '../entry/fields.ts'
import type { Stop } from '../plan/plan-file.ts'
import { visitKey } from '../fieldwork/state.ts'
import { localDate } from '../units/local-time.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { Worker } from '../custody/holder.ts'
import { partOf, partsOf } from '../custody/origin.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { isDetected, isInterpretable } from '../units/result-value.ts'
import { type Treatment, treatmentsOf } from '../control/treatments.ts'
import { type SinceTreatment, sinceTreatment } from './treatments.ts'
import { given } from '../entry/given.ts'

export type Outcome = 'positive' | 'negative' | 'not interpretable' | 'waiting'

export interface RowResult {
  readonly entry: EffectiveEntry<'result.reported'>
  /** a count that is half of a detection limit is no positive */
  readonly outcome: Exclude<Outcome, 'waiting'>
  readonly judgement: Judgement | undefined
  /** of a result on a part of the sample: the part's label, and for whom it was divided */
  readonly part?: { readonly label: string; readonly to: Worker }
}

/** One sample with everything known about it: where and how it was taken, what was read there, what the laboratory found. */
export interface SampleRow {
  readonly label: string
  readonly origin: 'collected' | 'taken by others'
  readonly place: string
  readonly component?: string
  readonly stop?: string
  readonly round?: string
  readonly circuit?: Circuit
  readonly riser?: string
  readonly floor?: number
  /** what the building calls that floor */
  readonly floorName?: string
  readonly zone?: string
  readonly sampleKind?: SampleKind
  readonly kindWords: string
  /** of a duplicate: the label of the sample it repeats */
  readonly repeats?: string
  readonly medium: 'water' | 'swab' | 'blank'
  readonly draw: 'first draw' | 'flushed' | 'not stated'
  readonly group?: string
  readonly collectedOn?: string
  /** hottest steady reading at that stop, or what was given with the sample */
  readonly temperatureC?: number
  readonly readings: readonly EffectiveEntry<'reading.taken'>[]
  readonly afterFilter: boolean
  readonly sinceTreatment: SinceTreatment | undefined
  readonly results: readonly RowResult[]
  readonly outcome: Outcome
}

/** Every sample that was taken, joined with its place, readings, treatments and results. The criteria judge each result if a set is given. */
export function sampleRows(state: InvestigationState, criteria?: CriteriaSet): SampleRow[] {
  const context: Context = { state, criteria, treatments: treatmentsOf(state) }
  const collected = [...state.fieldwork.samples.values()]
    .filter(({ body }) => body.sampleKind !== 'readings-only')
    .map((entry) => collectedRow(entry, context))
  return [...collected, ...[...state.results.registered.values()].map((entry) => registeredRow(entry, context))]
}

interface Context {
  readonly state: InvestigationState
  readonly criteria: CriteriaSet | undefined
  readonly treatments: readonly Treatment[]
}

function collectedRow(entry: EffectiveEntry<'sample.collected'>, context: Context): SampleRow {
  const { state } = context
  const { label, sampleKind, circuit, round, stop, filter } = entry.body
  const planned =
    state.plan.rounds.get(round)?.body.plan.stops.find(({ id }) => id === stop) ??
    state.fieldwork.addedStops.find(({ body }) => body.round === round && body.stop.id === stop)?.body.stop
  const id = entry.body.component ?? planned?.component
  const component = id === undefined ? undefined : state.building.working.component(id)
  const collectedOn = localDate(entry)
  const readings = state.fieldwork.visits.get(visitKey({ round, stop }))?.readings ?? []
  const medium = sampleKind === 'first-flush-swab' ? 'swab' : sampleKind === 'field-blank' ? 'blank' : 'water'
  return {
    label,
    origin: 'collected',
    place: component === undefined ? (planned?.title ?? stop) : componentName(component),
    stop,
    round,
    sampleKind,
    kindWords: SAMPLE_KIND_WORDS[sampleKind],
    medium,
    draw: DRAW_OF[sampleKind] ?? 'not stated',
    collectedOn,
    readings,
    afterFilter: filter === 'after filter',
    sinceTreatment: sinceTreatment(context.treatments, { collectedOn, component: id }),
    ...given({
      component: id,
      circuit: circuit ?? CIRCUIT_OF[sampleKind],
      temperatureC: hottest(readings),
      repeats: sampleKind === 'duplicate' ? repeated(entry, { state, planned }) : undefined,
    }),
    ...placed(component, { planned, floors: state.building.system?.floors }),
    ...resultsOf(label, { sampleKind, context }),
  }
}

/** The sample the plan says it repeats; else the only other bottle of water of its stop. */
function repeated(
  { body }: EffectiveEntry<'sample.collected'>,
  { state, planned }: { state: InvestigationState; planned: Stop | undefined },
): string | undefined {
  const told = planned?.samples.find(({ label }) => label === body.label)?.repeats
  if (told !== undefined && state.fieldwork.samples.has(told)) return told
  const others = [...state.fieldwork.samples.values()].filter(
    ({ body: other }) =>
      other.round === body.round &&
      other.stop === body.stop &&
      BULK.has(other.sampleKind) &&
      other.label !== body.label,
  )
  return others.length === 1 ? others[0]?.body.label : undefined
}

const BULK: ReadonlySet<SampleKind> = new Set(['bulk-hot', 'bulk-cold', 'heater-drain', 'return-line'])
const DRAW_OF: Partial<Record<SampleKind, SampleRow['draw']>> = {
  'first-flush-swab': 'first draw',
  'bulk-hot': 'flushed',
  'bulk-cold': 'flushed',
}
const CIRCUIT_OF: Partial<Record<SampleKind, Circuit>> = {
  'bulk-hot': 'hot',
  'bulk-cold': 'cold',
  'heater-drain': 'hot',
  'return-line': 'hot-return',
}

function registeredRow(entry: EffectiveEntry<'sample.registered'>, context: Context): SampleRow {
  const {
    label,
    place,
    takenBy,
    sampleKind,
    circuit,
    draw,
    collectedOn,
    temperatureC,
    group,
    component: id,
  } = entry.body
  const component = id === undefined ? undefined : context.state.building.working.component(id)
  return {
    label,
    origin: 'taken by others',
    place: component === undefined ? (place ?? `taken by ${takenBy}`) : componentName(component),
    kindWords:
      sampleKind === undefined ? (draw === 'not stated' ? 'kind not stated' : draw) : SAMPLE_KIND_WORDS[sampleKind],
    medium: sampleKind === 'first-flush-swab' ? 'swab' : sampleKind === 'field-blank' ? 'blank' : 'water',
    draw,
    readings: [],
    afterFilter: false,
    sinceTreatment: sinceTreatment(context.treatments, { collectedOn, component: id }),
    ...given({
      component: id,
      circuit: circuit ?? (sampleKind === undefined ? undefined : CIRCUIT_OF[sampleKind]),
      temperatureC,
      group,
      collectedOn,
      sampleKind,
    }),
    ...placed(component, { planned: undefined, floors: context.state.building.system?.floors }),
    ...resultsOf(label, { sampleKind, context }),
  }
}

function placed(
  component: Component | undefined,
  {
    planned,
    floors,
  }: {
    planned: { riser?: string | undefined; floor?: number | undefined; zone?: string | undefined } | undefined
    floors: FloorNames
  },
) {
  const floor = component?.floor ?? planned?.floor
  return given({
    riser: component?.riser ?? planned?.riser,
    floor,
    floorName: floor === undefined ? undefined : floorWords(floors, floor),
    zone: component?.zone ?? planned?.zone,
  })
}

function hottest(readings: readonly EffectiveEntry<'reading.taken'>[]): number | undefined {
  const values = readings.flatMap(({ body }) =>
    body.quantity === 'hot-temperature' && body.reading.kind === 'value'
      ? [body.curve?.steady?.temperatureC ?? body.reading.value]
      : [],
  )
  return values.length === 0 ? undefined : Math.max(...values)
}

function resultsOf(
  label: string,
  { sampleKind, context }: { sampleKind: SampleKind | undefined; context: Context },
): Pick<SampleRow, 'results' | 'outcome'> {
  const { state, criteria } = context
  const results = [label, ...partsOf(state, label)].flatMap((own) =>
    (state.results.resultsByLabel.get(own) ?? []).map((entry) => {
      const to = partOf(state, own)?.to
      return {
        entry,
        outcome: outcomeOf(entry),
        judgement: judged(entry, { sampleKind, criteria }),
        ...(to === undefined ? {} : { part: { label: own, to } }),
      }
    }),
  )
  return { results, outcome: sampleOutcome(results) }
}

function outcomeOf({ body }: EffectiveEntry<'result.reported'>): RowResult['outcome'] {
  if (!isInterpretable(body.value)) return 'not interpretable'
  return isDetected(body.value) && body.halfLimitSuspected !== true ? 'positive' : 'negative'
}

/** Culture decides; PCR (which also finds what is dead) decides only where nothing was cultured. */
function sampleOutcome(results: readonly RowResult[]): Outcome {
  const cultured = results.filter(({ entry }) => entry.body.method !== 'PCR')
  const deciding = cultured.length > 0 ? cultured : results
  for (const outcome of ['positive', 'negative', 'not interpretable'] as const)
    if (deciding.some((result) => result.outcome === outcome)) return outcome
  return 'waiting'
}

/** Samples of others whose kind is not stated are taken for water from an outlet; a swab is never judged as one. */
function judged(
  entry: EffectiveEntry<'result.reported'>,
  { sampleKind, criteria }: { sampleKind: SampleKind | undefined; criteria: CriteriaSet | undefined },
): Judgement | undefined {
  if (criteria === undefined) return undefined
  if (entry.body.halfLimitSuspected === true)
    return { kind: 'not-applicable', reason: 'the value looks like half of a detection limit' }
  const { value, species } = entry.body
  return judge({ criteria, sampleKind: sampleKind ?? 'bulk-hot', value, ...(species === undefined ? {} : { species }) })
}
