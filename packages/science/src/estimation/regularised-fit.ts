import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import type { Fit, FitProblem, FittedParameter } from './fit-problem.ts'
import { lossOf } from './loss.ts'
import { covarianceOf, dampedStep, normalEquations, type NormalEquations } from './normal-equations.ts'
import { standardScale, type StandardScale } from './standard-scale.ts'

const DEFAULTS = { tolerance: 1e-10, mostRuns: 200, differenceStep: 1e-6, level: 0.9 }
const FIRST_DAMPING = 1e-3
const LESS_DAMPING = 0.1
const MORE_DAMPING = 8
const MOST_DAMPING = 1e12
/** A rough search that began with slopes of elsewhere soon gives in. */
const MOST_ROUGH_DAMPING = 1

/**
 * The most likely values of a model's unknowns given readings and what is believed before, with ranges.
 * Wanted where a model of many guesses meets a few measurements: what do they say, and of what do they say nothing?
 *
 * Lowest point of Σ ρ((reading − prediction)/sd) + ½ Σ ((parameter − centre)/sd)², by damped steps (Levenberg, Marquardt) on slopes taken
 * by differences and kept up to date after Broyden, so that a costly model is run seldom. Covariance (JᵀWJ + P)⁻¹ at the lowest point;
 * ranges are normal on each parameter's scale, cut at its bounds.
 *
 * Special cases: a parameter no reading depends on keeps its prior. A limit counts only where the prediction breaks it. Where the runs end
 * before it settles, the best point so far comes back with `settled` false.
 *
 * @param problem parameters, readings, model, loss and how much work it may be
 * @throws RangeError where the model gives no numbers at the start, or where parameters without a prior can't be told from the readings
 * @source marquardt-1963
 * @source broyden-1965
 * @source tarantola-2005
 * @example
 * regularisedFit({ parameters: [{ id: 'a', scale: 'linear', start: 0, prior: { centre: 0, sd: 1 } }], readings: [{ value: 2, sd: 1 }], model: ([a]) => [a], loss: { kind: 'squares' } }).parameters[0].value.toFixed(6) // => "1.000000"
 */
export function regularisedFit(problem: FitProblem): Fit {
  const search = new Search(problem)
  let point = search.evaluate(search.start)
  if (point.cost === Number.POSITIVE_INFINITY)
    throw new RangeError('Cannot fit because the model gives no numbers at the start: got predictions not finite')
  const known = search.knownSlopes()
  let slopes = known ?? search.slopesAt(point)
  let fresh = known === undefined
  let damping = FIRST_DAMPING
  let settled = false
  const mostDamping = problem.rough === true && !fresh ? MOST_ROUGH_DAMPING : MOST_DAMPING
  while (!settled && search.runs < search.mostRuns && damping < mostDamping) {
    const moved = search.stepFrom(point, { slopes, damping })
    if (moved !== undefined && moved.gain <= search.tolerance * (1 + point.cost)) {
      settled = fresh || problem.rough === true
      if (!settled) slopes = search.slopesAt(point)
      fresh ||= !settled
      continue
    }
    const next = moved === undefined ? undefined : search.evaluate(moved.to)
    if (next !== undefined && next.cost < point.cost) {
      slopes = search.learnt(slopes, { from: point, to: next })
      point = next
      fresh = false
      damping *= LESS_DAMPING
    } else if (fresh || problem.rough === true) damping *= MORE_DAMPING
    else {
      slopes = search.slopesAt(point)
      fresh = true
    }
  }
  if (!fresh && problem.rough !== true) slopes = search.slopesAt(point)
  return search.fitAt(point, { slopes, settled: settled || damping >= mostDamping })
}

interface Point {
  at: Float64Array
  predicted: Float64Array
  standardised: Float64Array
  weights: Float64Array
  misfit: number
  penalty: number
  cost: number
}

/** The model on the standard scales, with a count of its runs. */
class Search {
  readonly #problem: FitProblem
  readonly #scales: readonly StandardScale[]
  readonly #hasPrior: readonly boolean[]
  readonly start: Float64Array
  readonly tolerance: number
  readonly mostRuns: number
  runs = 0

  constructor(problem: FitProblem) {
    this.#problem = problem
    this.#scales = problem.parameters.map(standardScale)
    this.#hasPrior = this.#scales.map(({ hasPrior }) => hasPrior)
    this.start = Float64Array.from(this.#scales, ({ start }) => start)
    this.tolerance = problem.tolerance ?? DEFAULTS.tolerance
    this.mostRuns = problem.mostRuns ?? DEFAULTS.mostRuns
  }

  evaluate(at: Float64Array): Point {
    const predicted = this.#predict(at)
    const standardised = this.#problem.readings.map(({ value, sd, beyond }, i) => {
      const off = (value - (predicted[i] as number)) / sd
      return (beyond === 'below' && off > 0) || (beyond === 'above' && off < 0) ? 0 : off
    })
    const losses = standardised.map((r) => lossOf(r, this.#problem.loss))
    const misfit = losses.reduce((sum, { value }) => sum + value, 0)
    const penalty = at.reduce((sum, u, j) => sum + (this.#hasPrior[j] === true ? (u * u) / 2 : 0), 0)
    const cost = Number.isFinite(misfit) ? misfit + penalty : Number.POSITIVE_INFINITY
    const weights = Float64Array.from(losses, ({ weight }) => weight)
    return { at, predicted, standardised: Float64Array.from(standardised), weights, misfit, penalty, cost }
  }

  #predict(at: Float64Array): Float64Array {
    const values = this.#scales.map(({ toValue }, j) => toValue(at[j] as number))
    const predicted = Float64Array.from(this.#problem.model(values))
    if (predicted.length !== this.#problem.readings.length)
      throw new RangeError(`Cannot fit because each reading needs a prediction: got ${predicted.length}`)
    this.runs += 1
    this.#problem.onRun?.(this.runs)
    return predicted
  }

  /** Slopes of the standardised predictions by differences, inwards at a bound. */
  slopesAt(point: Point): Float64Array {
    const many = point.at.length
    const slopes = new Float64Array(point.predicted.length * many)
    const step = this.#problem.differenceStep ?? DEFAULTS.differenceStep
    for (const [j, { upper }] of this.#scales.entries()) {
      const sides = (point.at[j] as number) + step > upper ? [-step] : [step, -step]
      for (const side of sides) {
        const beside = this.#predict(point.at.map((u, k) => (k === j ? u + side : u)))
        if (!beside.every(Number.isFinite)) continue
        for (const [i, { sd }] of this.#problem.readings.entries())
          slopes[i * many + j] = ((beside[i] as number) - (point.predicted[i] as number)) / side / sd
        break
      }
    }
    return slopes
  }

  /** Those handed in, on the standard scales and per standard deviation of the reading. */
  knownSlopes(): Float64Array | undefined {
    const many = this.start.length
    return this.#problem.slopes?.map((each, at) => (each * this.#unit(at % many)) / this.#sd(Math.floor(at / many)))
  }

  readonly #unit = (j: number): number => this.#scales[j]?.unit ?? 1
  readonly #sd = (i: number): number => this.#problem.readings[i]?.sd ?? 1

  /** What a step teaches of the slopes: J + (Δf − J·δ)·δᵀ/(δᵀδ). */
  learnt(slopes: Float64Array, { from, to }: { from: Point; to: Point }): Float64Array {
    const many = from.at.length
    const step = to.at.map((u, j) => u - (from.at[j] as number))
    const length2 = step.reduce((sum, each) => sum + each * each, 0)
    const learnt = Float64Array.from(slopes)
    if (length2 === 0) return learnt
    for (const [i, { sd }] of this.#problem.readings.entries()) {
      let foreseen = 0
      for (let j = 0; j < many; j++) foreseen += (slopes[i * many + j] as number) * (step[j] as number)
      const missed = ((to.predicted[i] as number) - (from.predicted[i] as number)) / sd - foreseen
      for (let j = 0; j < many; j++)
        learnt[i * many + j] = (learnt[i * many + j] as number) + (missed * (step[j] as number)) / length2
    }
    return learnt
  }

  /** A limit that is kept to pulls at nothing, though its prediction has slopes like any other. */
  #equationsAt({ standardised, weights, at }: Point, slopes: Float64Array): NormalEquations {
    const pulls = weights.map((weight, i) =>
      this.#problem.readings[i]?.beyond !== undefined && standardised[i] === 0 ? 0 : weight,
    )
    return normalEquations({ slopes, standardised, weights: pulls, at, hasPrior: this.#hasPrior })
  }

  /** Where the damped step leads, and how much lower that should be. */
  stepFrom(
    point: Point,
    { slopes, damping }: { slopes: Float64Array; damping: number },
  ): { to: Float64Array; gain: number } | undefined {
    const equations = this.#equationsAt(point, slopes)
    const held = this.#scales.map(({ lower, upper }, j) => {
      const [u, down] = [point.at[j] as number, equations.descent[j] as number]
      return (u <= lower && down < 0) || (u >= upper && down > 0)
    })
    const step = dampedStep(equations, { damping, held })
    if (step === undefined) return undefined
    const to = point.at.map((u, j) => {
      const { lower, upper } = this.#scales[j] as StandardScale
      return Math.min(upper, Math.max(lower, u + (step[j] as number)))
    })
    return { to, gain: foreseenGain(equations, step) }
  }

  fitAt(point: Point, { slopes, settled }: { slopes: Float64Array; settled: boolean }): Fit {
    const many = point.at.length
    const standard = covarianceOf(this.#equationsAt(point, slopes).curvature, many)
    if (standard === undefined)
      throw new RangeError('Cannot fit because parameters without a prior can’t be told from the readings: got a flat')
    const { predicted, standardised, weights, misfit, penalty } = point
    return {
      parameters: this.#fitted(point, standard),
      covariance: standard.map((each, at) => each * this.#unit(Math.floor(at / many)) * this.#unit(at % many)),
      predicted,
      slopes: slopes.map((each, at) => (each * this.#sd(Math.floor(at / many))) / this.#unit(at % many)),
      predictedSd: Float64Array.from(
        this.#problem.readings,
        ({ sd }, i) => sd * Math.sqrt(Math.max(0, quadratic(standard, slopes.subarray(i * many, (i + 1) * many)))),
      ),
      standardised,
      weights,
      misfit,
      penalty,
      runs: this.runs,
      settled,
    }
  }

  #fitted({ at }: Point, covariance: Float64Array): FittedParameter[] {
    const z = twoSidedNormalQuantile(this.#problem.level ?? DEFAULTS.level)
    return this.#problem.parameters.map(({ id }, j) => {
      const { toValue, unit, lower, upper, hasPrior } = this.#scales[j] as StandardScale
      const sd = Math.sqrt(covariance[j * at.length + j] as number)
      const u = at[j] as number
      return {
        id,
        value: toValue(u),
        sd: sd * unit,
        range: { lower: toValue(Math.max(lower, u - z * sd)), upper: toValue(Math.min(upper, u + z * sd)) },
        sdRatio: hasPrior ? sd : undefined,
        atBound: u <= lower || u >= upper,
      }
    })
  }
}

function foreseenGain({ descent, curvature }: NormalEquations, step: Float64Array): number {
  const falls = step.reduce((sum, each, j) => sum + each * (descent[j] as number), 0)
  return falls - quadratic(curvature, step) / 2
}

/** vᵀ·A·v */
function quadratic(matrix: Float64Array, vector: Float64Array): number {
  let sum = 0
  for (let j = 0; j < vector.length; j++)
    for (let k = 0; k < vector.length; k++)
      sum += (vector[j] as number) * (matrix[j * vector.length + k] as number) * (vector[k] as number)
  return sum
}
