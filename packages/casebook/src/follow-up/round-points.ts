import { standingOf, visitAt } from '../fieldwork/stops.ts'
import type { Stop } from '../plan/plan-file.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** How the points an adopted round was to sample stand. */
export interface RoundPoints {
  readonly planned: number
  /** neither sampled as planned nor given up with a reason */
  readonly open: number
  /** given up: nothing that counts was collected there */
  readonly givenUp: number
}

const NO_ROUND_SAMPLES: ReadonlySet<string> = new Set(['field-blank', 'readings-only'])

/**
 * The points of the adopted plan that have a sample which counts. A point is done once its visit was finished, whatever came of it (less
 * than planned has a reason), or once each of its samples was collected or left out with a reason. What was added on the spot is more
 * than the round asks for.
 */
export function roundPoints(state: InvestigationState, round: string): RoundPoints {
  const stops = state.plan.rounds.get(round)?.body.plan.stops ?? []
  const points = stops.filter((stop) => countingSamples(stop).length > 0).map((stop) => pointOf(state, { round, stop }))
  return {
    planned: points.length,
    open: points.filter(({ done }) => !done).length,
    givenUp: points.filter(({ done, sampled }) => done && !sampled).length,
  }
}

const countingSamples = ({ samples }: Stop): Stop['samples'] =>
  samples.filter(({ sampleKind }) => !NO_ROUND_SAMPLES.has(sampleKind))

function pointOf(
  state: InvestigationState,
  { round, stop }: { round: string; stop: Stop },
): { done: boolean; sampled: boolean } {
  const visit = visitAt(state, { round, stop: stop.id })
  return {
    done:
      visit?.finished !== undefined || countingSamples(stop).every((sample) => standingOf(visit, sample) !== 'open'),
    sampled: visit?.samples.some(({ body }) => !NO_ROUND_SAMPLES.has(body.sampleKind)) ?? false,
  }
}
