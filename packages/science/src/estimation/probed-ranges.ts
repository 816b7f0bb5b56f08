import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import type { Fit, FitProblem, FittedParameter } from './fit-problem.ts'
import { standardScale, type StandardScale } from './standard-scale.ts'

/** An edge is moved by no more than this factor: further, the model is too bent for one look. */
const FARTHEST = 2
/** A range as wide as this share of the prior's is the prior's, and needs no look. */
const NEARLY_PRIOR = 0.97
const USUAL_LEVEL = 0.9

/**
 * A fit with each edge of its ranges set right by one run of the model there. Wanted because ranges from the curvature are symmetrical and take
 * the model for straight: where its answer bends, they miss more often on one side.
 *
 * For parameter j the others follow along the covariance C: u(t) = û + t·C·e_j/C_jj. With the weights of the fit, Σ w·(r² − r̂²) + Σ (u² − û²)
 * is z² at t = ±z·√C_jj if the model is straight; the edge is moved by z over the root of what it is, by twice at most either way. It is one look
 * along a line, not the profile: the others are not fitted anew.
 *
 * Special cases: parameters of which the readings say next to nothing, and edges where the model gives no numbers, stay.
 *
 * @param problem what was fitted, with its level
 * @param fit its answer
 * @source tarantola-2005
 * @source venzon-moolgavkar-1988
 * @example
 * withProbedRanges({ parameters: [{ id: 'a', scale: 'linear', start: 0, prior: { centre: 0, sd: 1 } }], readings: [{ value: 2, sd: 1 }], model: ([a]) => [a], loss: { kind: 'squares' } }, { parameters: [{ id: 'a', value: 1, sd: Math.SQRT1_2, range: { lower: 0, upper: 2 } }], covariance: [0.5], standardised: [1], weights: [1] }).parameters[0].range.upper.toFixed(4) // => "2.1631"
 */
export function withProbedRanges(problem: FitProblem, fit: Fit): Fit {
  const probe = new Probe(problem, fit)
  return { ...fit, parameters: fit.parameters.map((one, j) => ({ ...one, range: probe.rangeOf(one, j) })) }
}

class Probe {
  readonly #problem: FitProblem
  readonly #fit: Fit
  readonly #scales: readonly StandardScale[]
  readonly #at: readonly number[]
  readonly #z: number

  constructor(problem: FitProblem, fit: Fit) {
    this.#problem = problem
    this.#fit = fit
    this.#scales = problem.parameters.map(standardScale)
    // the start on the standard scale of one that starts where the fit ended
    this.#at = problem.parameters.map(
      (one, j) => standardScale({ ...one, start: fit.parameters[j]?.value ?? one.start }).start,
    )
    this.#z = twoSidedNormalQuantile(problem.level ?? USUAL_LEVEL)
  }

  rangeOf({ range, sd, sdRatio }: FittedParameter, j: number): FittedParameter['range'] {
    const [scale, at] = [this.#scales[j], this.#at[j]]
    if (scale === undefined || at === undefined || (sdRatio ?? 0) > NEARLY_PRIOR) return range
    const reach = (this.#z * sd) / scale.unit
    const edge = (side: 1 | -1): number => {
      const rise = this.#riseAt(this.#aside(j, side * this.#z * sd))
      const factor = Number.isFinite(rise) ? this.#z / Math.sqrt(Math.max(rise, Number.MIN_VALUE)) : 1
      return at + side * reach * Math.min(FARTHEST, Math.max(1 / FARTHEST, factor))
    }
    return {
      lower: scale.toValue(Math.max(scale.lower, edge(-1))),
      upper: scale.toValue(Math.min(scale.upper, edge(1))),
    }
  }

  /** All parameters on their standard scales, where one is moved on its own scale and the others follow. */
  #aside(j: number, by: number): number[] {
    const { covariance, parameters } = this.#fit
    const own = covariance[j * parameters.length + j] as number
    return this.#at.map((each, k) => {
      const { unit, lower, upper } = this.#scales[k] as StandardScale
      const along = (covariance[k * parameters.length + j] as number) / own
      return Math.min(upper, Math.max(lower, each + (by * along) / unit))
    })
  }

  #riseAt(u: readonly number[]): number {
    const { standardised, weights } = this.#fit
    const predicted = this.#problem.model(u.map((each, j) => (this.#scales[j] as StandardScale).toValue(each)))
    const misfits = this.#problem.readings.map(({ value, sd, beyond }, i) => {
      const off = (value - (predicted[i] as number)) / sd
      const kept = (beyond === 'below' && off > 0) || (beyond === 'above' && off < 0)
      return (weights[i] as number) * ((kept ? 0 : off * off) - (standardised[i] as number) ** 2)
    })
    const penalties = u.map((each, j) =>
      this.#scales[j]?.hasPrior === true ? each * each - (this.#at[j] as number) ** 2 : 0,
    )
    return [...misfits, ...penalties].reduce((sum, each) => sum + each, 0)
  }
}
