/** A 2×2 table with fixed margins: how many exposed are cases can run from `least` to `most`. */
export interface FixedMargins {
  exposed: number
  unexposed: number
  cases: number
}

/** The distribution of exposed cases under an odds ratio, on its whole support. */
export interface Support {
  least: number
  /** Chance of `least`, `least + 1`, … */
  chances: Float64Array
}

/**
 * The distribution of the exposed cases of a 2×2 table with fixed margins, under an odds ratio (noncentral
 * hypergeometric). The exact limits of the odds ratio come from its tails.
 *
 * Neighbouring chances stand in the ratio ψ·(n₁−k)(m−k) / ((k+1)(n₂−m+k+1)); built outwards from the largest.
 *
 * @param margins exposed n₁, unexposed n₂ and cases m, whole
 * @param logOddsRatio natural logarithm of ψ, finite
 * @source fisher-exact
 * @example
 * exposedCases({ exposed: 4, unexposed: 4, cases: 4 }, 0).chances[0] // => 0.014285714285714285
 */
export function exposedCases(margins: FixedMargins, logOddsRatio: number): Support {
  const { exposed, unexposed, cases } = margins
  const least = Math.max(0, cases - unexposed)
  const most = Math.min(cases, exposed)
  const chances = new Float64Array(most - least + 1)
  const logUp = (k: number) =>
    logOddsRatio + Math.log(((exposed - k) * (cases - k)) / ((k + 1) * (unexposed - cases + k + 1)))
  const mode = firstWhere({ least, most }, (k) => logUp(k) <= 0)
  chances[mode - least] = 1
  let total = 1
  for (let k = mode, log = 0; k < most && log > FORGET_BELOW; k++) {
    log += logUp(k)
    total += chances[k + 1 - least] = Math.exp(log)
  }
  for (let k = mode, log = 0; k > least && log > FORGET_BELOW; k--) {
    log -= logUp(k - 1)
    total += chances[k - 1 - least] = Math.exp(log)
  }
  for (let i = 0; i < chances.length; i++) chances[i] = (chances[i] ?? 0) / total
  return { least, chances }
}

/** A chance this far below the largest (in logarithm) is nothing to a double. */
const FORGET_BELOW = -700

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
