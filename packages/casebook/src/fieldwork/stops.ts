import type { PlannedSample, Stop } from '../plan/plan-file.ts'
import { isLabelled } from '../plan/samples-at.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { type StopVisit, visitKey } from './state.ts'

/** Where in the fieldwork: a stop of a round. */
export interface StopAt {
  readonly round: string
  readonly stop: string
}

export interface KnownStop {
  readonly stop: Stop
  /** why it was added on the spot; undefined for a stop of the adopted plan */
  readonly addedBecause?: string | undefined
}

/** The stops of a round: those of its adopted plan in walking order, then those added on the spot. */
export function stopsOf(state: InvestigationState, round: string): readonly KnownStop[] {
  const planned = state.plan.rounds.get(round)?.body.plan.stops ?? []
  const added = state.fieldwork.addedStops.filter(({ body }) => body.round === round)
  return [
    ...planned.map((stop) => ({ stop })),
    ...added.map(({ body }) => ({ stop: body.stop, addedBecause: body.reason })),
  ]
}

/** Titles of all stops of all rounds, by `visitKey`. */
export type StopTitles = ReadonlyMap<string, string>

export function stopTitles(state: InvestigationState): StopTitles {
  const titles = [...state.plan.rounds.keys()].flatMap((round) =>
    stopsOf(state, round).map(({ stop }) => [visitKey({ round, stop: stop.id }), stop.title] as const),
  )
  return new Map(titles)
}

export function findStop(state: InvestigationState, at: StopAt): KnownStop | undefined {
  return stopsOf(state, at.round).find(({ stop }) => stop.id === at.stop)
}

export function visitAt(state: InvestigationState, at: StopAt): StopVisit | undefined {
  return state.fieldwork.visits.get(visitKey(at))
}

/** How one planned sample of a stop stands. */
export type SampleStanding = 'collected' | 'left out' | 'open'

/** Readings count as taken with a reading of their water; samples with the label collected or, without one, the kind. */
export function standingOf(visit: StopVisit | undefined, sample: PlannedSample): SampleStanding {
  if (visit === undefined) return 'open'
  if (!isLabelled(sample)) return readingsTaken(visit, sample) ? 'collected' : 'open'
  if (visit.samples.some(({ body }) => fills(sample, body))) return 'collected'
  return visit.deviations.some(
    ({ body }) => body.leftOut === true && body.label !== undefined && body.label === sampleName(sample),
  )
    ? 'left out'
    : 'open'
}

/** What a sample is called where it has no label yet: its kind. */
export const sampleName = ({ label, sampleKind }: Pick<PlannedSample, 'label' | 'sampleKind'>): string =>
  label ?? sampleKind

const fills = (
  sample: PlannedSample,
  got: { label: string; sampleKind: string; circuit?: string | undefined },
): boolean =>
  sample.label === undefined
    ? got.sampleKind === sample.sampleKind && (got.circuit ?? sample.circuit) === sample.circuit
    : got.label === sample.label

/** The label of what was collected for a planned sample: its own, or the one given on the spot. */
export function collectedLabel(visit: StopVisit | undefined, sample: PlannedSample): string | undefined {
  return visit?.samples.find(({ body }) => fills(sample, body))?.body.label
}

function readingsTaken(visit: StopVisit, { circuit }: PlannedSample): boolean {
  const quantity = circuit === 'cold' ? 'cold-temperature' : 'hot-temperature'
  return visit.readings.some(
    ({ body }) => body.circuit === circuit || (body.circuit === undefined && body.quantity === quantity),
  )
}

/** Samples of a stop still to be collected, readings not counted. */
export function openSamples(state: InvestigationState, at: StopAt): readonly PlannedSample[] {
  const visit = visitAt(state, at)
  return (findStop(state, at)?.stop.samples ?? []).filter(
    (sample) => isLabelled(sample) && standingOf(visit, sample) === 'open',
  )
}
