import { upperBoundAfterNegatives } from '@rillmark/science/detection/upper-bound-after-negatives.ts'
import { isOutlet } from '../building/water-system.ts'
import { PLANNING } from '../plan/planning.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { RoundOutcome } from './round-outcomes.ts'
import { counted } from '../units/counted.ts'

/** What a series of rounds without a positive could still miss. */
export interface CouldMiss {
  readonly outlets: number
  readonly sampled: number
  /** outlets that could still be colonised */
  readonly upperNumber: number
  readonly level: number
  readonly sensitivity: number
  readonly words: string
}

/**
 * The most outlets that could still be colonised after the negative rounds. Each outlet is counted once however often it was sampled,
 * which errs on the side of more.
 */
export function couldMiss(state: InvestigationState, negatives: readonly RoundOutcome[]): CouldMiss | undefined {
  const outlets = new Set((state.building.system?.components ?? []).filter(isOutlet).map(({ id }) => id))
  const points = new Set(
    negatives.flatMap(({ negativePoints }) => negativePoints).filter((point) => outlets.has(point)),
  )
  if (outlets.size === 0 || points.size === 0) return undefined
  const { sensitivity, level } = PLANNING
  const bound = upperBoundAfterNegatives({ outlets: outlets.size, sampled: points.size, sensitivity, level })
  const upperNumber = bound.upperNumber ?? outlets.size
  const rounds = counted(negatives.length, 'negative round')
  return {
    outlets: outlets.size,
    sampled: points.size,
    upperNumber,
    level,
    sensitivity,
    words: `${rounds}, ${points.size} of ${outlets.size} outlets sampled at least once: up to ${upperNumber} could still be colonised (${Math.round(level * 100)} % confidence, if those sampled stand for the rest).`,
  }
}
