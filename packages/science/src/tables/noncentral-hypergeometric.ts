import { firstWhere } from '../distributions/first-where.ts'
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
  return exposedCasesUnder(margins)(logOddsRatio)
}

/**
 * The same for one odds ratio after another.
 *
 * @param margins exposed n₁, unexposed n₂ and cases m, whole
 * @returns the distribution under a log odds ratio
 * @source fisher-exact
 * @example
 * exposedCasesUnder({ exposed: 4, unexposed: 4, cases: 4 })(0).least // => 0
 */
export function exposedCasesUnder(margins: FixedMargins): (logOddsRatio: number) => Support {
  const { exposed, unexposed, cases, negligible = LEAST_HELD } = margins
  const least = Math.max(0, cases - unexposed)
  const most = Math.min(cases, exposed)
  const fewest = unexposed - cases
  const up = (k: number, odds: number) => odds * (((exposed - k) / (k + 1)) * ((cases - k) / (fewest + k + 1)))
  const [upwards, downwards] = [new Weights(), new Weights()]
  return (logOddsRatio) => {
    const odds = Math.exp(logOddsRatio)
    const mode = firstWhere({ least, most }, (k) => up(k, odds) <= 1)
    upwards.clear()
    for (let k = mode, chance = 1; k < most && chance > negligible; k++) upwards.add((chance *= up(k, odds)))
    downwards.clear()
    for (let k = mode - 1, chance = 1; k >= least && chance > negligible; k--) downwards.add((chance /= up(k, odds)))
    return { least: mode - downwards.count, chances: joined(downwards, upwards) }
  }
}

/** A chance this far below the largest is nothing beside it, and its neighbours are less. */
const LEAST_HELD = 1e-300

/** A growing row of numbers and their sum; its room is used again. */
class Weights {
  held = new Float64Array(64)
  count = 0
  sum = 0

  clear(): void {
    this.count = 0
    this.sum = 0
  }

  add(weight: number): void {
    if (this.count === this.held.length) {
      const longer = new Float64Array(4 * this.count)
      longer.set(this.held)
      this.held = longer
    }
    this.held[this.count++] = weight
    this.sum += weight
  }
}

/** Weights from the largest (1) outwards, as chances in order. */
function joined(downwards: Weights, upwards: Weights): Float64Array {
  const middle = downwards.count
  const chances = new Float64Array(middle + 1 + upwards.count)
  const total = 1 + downwards.sum + upwards.sum
  chances[middle] = 1 / total
  for (let i = 0; i < middle; i++) chances[middle - 1 - i] = (downwards.held[i] as number) / total
  for (let i = 0; i < upwards.count; i++) chances[middle + 1 + i] = (upwards.held[i] as number) / total
  return chances
}
