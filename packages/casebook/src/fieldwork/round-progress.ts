import type { Stop } from '../plan/plan-file.ts'
import { isLabelled } from '../plan/samples-at.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { standingOf, stopsOf, visitAt } from './stops.ts'
import { type Hand, handAtWork } from './team-view.ts'
import type { Outcome } from './visit-plan.ts'

export interface StopProgress {
  readonly stop: Stop
  /** place in the walk, counted from 1 */
  readonly position: number
  readonly addedBecause?: string | undefined
  readonly state: 'ahead' | 'begun' | Outcome
  readonly collected: number
  readonly planned: number
  readonly deviations: number
  /** of a stop under way: who wrote there last */
  readonly atWork?: Hand | undefined
}

export interface RoundProgress {
  readonly round: string
  readonly stops: readonly StopProgress[]
  readonly finished: number
  /** stops where at least a part of what was planned was taken */
  readonly sampled: number
  /** stops that were given up with a reason: finished, not done */
  readonly notPossible: number
  readonly collected: number
  readonly planned: number
  readonly next: StopProgress | undefined
}

/** How far a round is: each stop, the samples, and where to go next. `team`: only that team's walk; `device`: whoever asks. */
export function roundProgress(
  state: InvestigationState,
  of: { round: string; team?: number | undefined; device?: string | undefined },
): RoundProgress {
  const stops = stopsOf(state, of.round)
    .map(
      (known, index): StopProgress => ({
        ...known,
        position: index + 1,
        ...standing(state, { round: of.round, stop: known.stop }),
      }),
    )
    .filter(({ stop }) => of.team === undefined || stop.team === undefined || stop.team === of.team)
  const sum = (pick: (one: StopProgress) => number): number => stops.reduce((total, one) => total + pick(one), 0)
  return {
    round: of.round,
    stops,
    sampled: stops.filter(({ state: is }) => is === 'sampled' || is === 'partly').length,
    notPossible: stops.filter(({ state: is }) => is === 'not possible').length,
    finished: stops.filter(({ state: is }) => isFinished(is)).length,
    collected: sum(({ collected }) => collected),
    planned: sum(({ planned }) => planned),
    next: nextStop(stops, { device: of.device }),
  }
}

export const isFinished = (state: StopProgress['state']): boolean => state !== 'ahead' && state !== 'begun'

/**
 * A stop begun here comes first; then the first in walking order that is not done. One that another device is at is left to it.
 * `after`: on from there, then from the start.
 */
export function nextStop(
  stops: readonly StopProgress[],
  of: { after?: string | undefined; device?: string | undefined } = {},
): StopProgress | undefined {
  const { after, device } = of
  const open = stops.filter((one) => !isFinished(one.state) && one.stop.id !== after && !isElsewhere(one, device))
  const from = stops.findIndex(({ stop }) => stop.id === after)
  const begun = after === undefined ? open.find(({ state }) => state === 'begun') : undefined
  return begun ?? open.find((one) => stops.indexOf(one) > from) ?? open[0]
}

/** A stop another device is at. */
export const isElsewhere = ({ atWork }: StopProgress, device: string | undefined): boolean =>
  device !== undefined && atWork !== undefined && atWork.device !== device

function standing(
  state: InvestigationState,
  at: { round: string; stop: Stop },
): Pick<StopProgress, 'state' | 'collected' | 'planned' | 'deviations' | 'atWork'> {
  const visit = visitAt(state, { round: at.round, stop: at.stop.id })
  const labelled = at.stop.samples.filter(isLabelled)
  const begun =
    visit !== undefined && (visit.started !== undefined || visit.samples.length > 0 || visit.readings.length > 0)
  return {
    state: visit?.finished?.body.outcome ?? (begun ? 'begun' : 'ahead'),
    collected: labelled.filter((sample) => standingOf(visit, sample) === 'collected').length,
    planned: labelled.length,
    deviations: visit?.deviations.length ?? 0,
    atWork: begun ? handAtWork(state, { round: at.round, stop: at.stop.id }) : undefined,
  }
}
