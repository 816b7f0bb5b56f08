import type { Support } from './lattice.ts'

/** A 2×2 table with fixed margins: how many exposed are cases can run from `least` to `most`. */
export interface FixedMargins {
  exposed: number
  unexposed: number
  cases: number
  /** Chances below this share of the largest are left out: the least a double can hold unless given. */
  negligible?: number
}

/**
 * The distribution of the exposed cases of a 2×2 table with fixed margins, under an odds ratio (noncentral
 * hypergeometric). The exact limits of the odds ratio come from its tails.
 *
 * Neighbouring chances stand in the ratio ψ·(n₁−k)(m−k) / ((k+1)(n₂−m+k+1)); built outwards from the largest, and only as far as a
 * double can tell: a table of millions costs no more than its spread.
 *
 * @param margins exposed n₁, unexposed n₂ and cases m, whole
 * @param logOddsRatio natural logarithm of ψ, finite
 * @source fisher-exact
 * @example
 * exposedCases({ exposed: 4, unexposed: 4, cases: 4 }, 0).chances[0] // => 0.014285714285714285
 */
export function exposedCases(margins: FixedMargins, logOddsRatio: number): Support {
  const { exposed, unexposed, cases, negligible = LEAST_HELD } = margins
  const least = Math.max(0, cases - unexposed)
  const most = Math.min(cases, exposed)
  const odds = Math.exp(logOddsRatio)
  const up = (k: number) => odds * (((exposed - k) / (k + 1)) * ((cases - k) / (unexposed - cases + k + 1)))
  const mode = firstWhere({ least, most }, (k) => up(k) <= 1)
  const upwards: number[] = []
  const downwards: number[] = []
  for (let k = mode, chance = 1; k < most && chance > negligible; k++) upwards.push((chance *= up(k)))
  for (let k = mode, chance = 1; k > least && chance > negligible; k--) downwards.push((chance /= up(k - 1)))
  return { least: mode - downwards.length, chances: joined(downwards, upwards) }
}

/** A chance this far below the largest is nothing beside it, and its neighbours are less. */
const LEAST_HELD = 1e-300

/** Weights from the largest (1) outwards, as chances in order. */
function joined(downwards: readonly number[], upwards: readonly number[]): Float64Array {
  const weights = new Float64Array(downwards.length + 1 + upwards.length)
  let total = (weights[downwards.length] = 1)
  const middle = downwards.length
  for (let i = 0; i < middle; i++) total += weights[middle - 1 - i] = downwards[i] ?? 0
  for (let i = 0; i < upwards.length; i++) total += weights[middle + 1 + i] = upwards[i] ?? 0
  for (let i = 0; i < weights.length; i++) weights[i] = (weights[i] ?? 0) / total
  return weights
}

/** The first k of a range for which a condition that stays true once true holds; `most` where it never does. */
function firstWhere({ least, most }: { least: number; most: number }, holds: (k: number) => boolean): number {
  let low = least
  let high = most
  while (low < high) {
    const middle = Math.floor((low + high) / 2)
    if (holds(middle)) high = middle
    else low = middle + 1
  }
  return low
}
