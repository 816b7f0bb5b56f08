import { newtonRoot, type Slope } from '../distributions/newton-root.ts'
import type { OpenInterval } from './open-interval.ts'

/** The chances of neighbouring whole numbers; what is left out has no chance a double could tell from 0. */
export interface Support {
  least: number
  /** Chance of `least`, `least + 1`, … */
  chances: Float64Array
}

/** A count whose distribution shifts upwards with the logarithm of an odds ratio. */
export interface ShiftingCount {
  at(logOddsRatio: number): Support
  observed: number
  /** Whether no smaller (larger) count was possible. */
  atLeast: boolean
  atMost: boolean
  /** Where to look first: a log odds ratio near the answer, and its rough standard error. */
  near: { log: number; step: number }
}

export interface Tails {
  /** Chance of more than seen, plus the share of the chance of what was seen. */
  above: number
  below: number
}

/**
 * The chances on both sides of what was seen.
 *
 * @param support a distribution
 * @param seen the count seen, and how much of its own chance counts: 1 exact, ½ mid-p
 * @source lancaster-mid-p
 * @example
 * tailsOf({ least: 0, chances: Float64Array.of(0.25, 0.5, 0.25) }, { observed: 1, share: 0.5 }).above // => 0.5
 */
export function tailsOf({ least, chances }: Support, { observed, share }: { observed: number; share: number }): Tails {
  const at = observed - least
  let [above, below] = [0, 0]
  for (let i = 0; i < Math.min(at, chances.length); i++) below += chances[i] as number
  for (let i = chances.length - 1; i > Math.max(at, -1); i--) above += chances[i] as number
  const own = (chances[at] ?? 0) * share
  return { above: above + own, below: below + own }
}

/**
 * Central limits of an odds ratio: where the chance of as many or more (or fewer) is half of 1 − level.
 *
 * Special cases: the lower limit is 0 where no smaller count was possible; the upper is left out where no larger was.
 *
 * @param count the count and its distribution
 * @param how level, and how much of the chance of what was seen counts: 1 exact, ½ mid-p
 * @source fisher-exact
 */
export function oddsRatioLimits(
  count: ShiftingCount,
  { level, share }: { level: number; share: number },
): OpenInterval {
  const { at, observed, near } = count
  const each = Math.log((1 - level) / 2)
  const root = (rising: (log: number) => Slope, side: 1 | -1) =>
    Math.exp(newtonRoot({ rising, start: near.log + side * 2 * near.step, step: near.step }))
  const ofTail = (log: number) => logTails(at(log), { observed, share })
  return {
    lower: count.atLeast ? 0 : root((log) => raised(ofTail(log).above, -each), -1),
    upper: count.atMost ? undefined : root((log) => raised(turned(ofTail(log).below), each), 1),
  }
}

const raised = ({ value, slope }: Slope, by: number): Slope => ({ value: value + by, slope })
const turned = ({ value, slope }: Slope): Slope => ({ value: -value, slope: -slope })

/** Logarithms of both tails with their slopes in the log odds ratio: the mean of the tail less the mean of all. */
function logTails(
  { least, chances }: Support,
  { observed, share }: { observed: number; share: number },
): { above: Slope; below: Slope } {
  const at = observed - least
  let [above, farAbove, below, farBelow] = [0, 0, 0, 0]
  for (let i = 0; i < Math.min(at, chances.length); i++) {
    const chance = chances[i] as number
    below += chance
    farBelow += chance * (i - at)
  }
  for (let i = chances.length - 1; i > Math.max(at, -1); i--) {
    const chance = chances[i] as number
    above += chance
    farAbove += chance * (i - at)
  }
  const own = (chances[at] ?? 0) * share
  const mean = farAbove + farBelow
  return {
    above: { value: Math.log(above + own), slope: farAbove / (above + own) - mean },
    below: { value: Math.log(below + own), slope: farBelow / (below + own) - mean },
  }
}

/**
 * The most likely odds ratio: the one under which the mean count is the one seen.
 *
 * Special cases: 0 where no smaller count was possible, nothing where no larger was.
 *
 * @param count the count and its distribution
 * @source fisher-exact
 */
export function likeliestOddsRatio({ at, observed, near, atLeast, atMost }: ShiftingCount): number | undefined {
  if (atMost) return undefined
  if (atLeast) return 0
  const rising = (log: number): Slope => {
    const { least, chances } = at(log)
    let [value, squares] = [0, 0]
    for (let i = 0; i < chances.length; i++) {
      const excess = least + i - observed
      const part = (chances[i] as number) * excess
      value += part
      squares += part * excess
    }
    return { value, slope: squares - value * value }
  }
  return Math.exp(newtonRoot({ rising, start: near.log, step: near.step }))
}
