import { usualMainMinutes } from '@rillmark/science/network/long-steps.ts'
import type { WaterSystem } from '../building/water-system.ts'
import { compileNetwork } from './compile-network.ts'
import type { ConditionsAnswer } from './conditions.ts'
import { conditionsOf } from './conditions-of.ts'
import { dayOrTrouble } from './flow-trouble.ts'
import type { ConditionsOverrides } from './overrides.ts'
import { seriesOf } from './series-of.ts'
import { USUAL_SEED } from './usual-seed.ts'

export interface ConditionsOptions {
  /** Of the times of use; the same seed gives the same answer. */
  seed?: number | undefined
  /** Curves of the day in so many spans, a divisor of 1440; none where left out. */
  slots?: number | undefined
  /** The most days to run until the day repeats itself. */
  mostDays?: number | undefined
  /** Told the fraction done, 0 to 1; throw from it to stop. */
  progress?: ((fraction: number) => void) | undefined
  overrides?: ConditionsOverrides | undefined
  /** The building this one is compared with, as it was simulated: its mains take steps as long, so that what differs is the buildings alone. */
  comparedWith?: { system: WaterSystem; overrides?: ConditionsOverrides | undefined } | undefined
}

const STEP_MINUTES = 1

/**
 * The water of a described building over a day that repeats itself: at every component and pipe how hot, how old, how disinfected and
 * how favourable to growth it is. Or all the reasons why nothing can be said. A screening model.
 */
export function simulateConditions(system: WaterSystem, options: ConditionsOptions = {}): ConditionsAnswer {
  const { seed = USUAL_SEED, slots, mostDays, progress, overrides, comparedWith } = options
  const other = comparedWith && compileNetwork(comparedWith.system, { seed, overrides: comparedWith.overrides })
  const stepsOf = other?.kind === 'compiled' ? other.network : undefined
  const compiled = compileNetwork(system, { seed, overrides, stepsOf })
  if (compiled.kind === 'cannot-say') return compiled
  const day = dayOrTrouble(compiled.network, {
    stepMinutes: STEP_MINUTES,
    mainMinutes: usualMainMinutes(stepsOf ?? compiled.network, STEP_MINUTES),
    ...(slots === undefined ? {} : { slots }),
    ...(mostDays === undefined ? {} : { mostDays }),
    ...(progress === undefined ? {} : { progress }),
  })
  if ('why' in day) return { kind: 'cannot-say', reasons: [day] }
  const conditions = conditionsOf(compiled, { day, seed })
  return { kind: 'conditions', conditions, series: day.series && seriesOf(compiled.map, day.series) }
}
