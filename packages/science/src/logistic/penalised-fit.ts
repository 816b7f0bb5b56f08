import { type Cholesky, choleskyOf, inverseOf, solveWith } from '../likelihood/cholesky.ts'
import { learntCurvature } from '../likelihood/curvature.ts'

/** Rows with the same covariates, together. `x` holds the columns row by row, the first all 1. */
export interface Patterns {
  columns: number
  x: Float64Array
  /** Products of every two columns, as the lower triangle of each row's own square; row by row. */
  products: Float64Array
  trials: Float64Array
  events: Float64Array
}

export interface PenalisedPoint {
  coefficients: Float64Array
  /** Log-likelihood plus half the logarithm of the determinant of the information. */
  logLikelihood: number
  score: Float64Array
  information: Float64Array
}

/**
 * The penalised log-likelihood of a logistic model at given coefficients, with its slope and the information.
 *
 * l* = Σ ln-likelihood + ½ ln|I|; slope in βⱼ: Σ (y − π + h(½ − π))·xⱼ, h the leverages.
 *
 * Special cases: minus infinity where the information has no root, so that a search turns back.
 *
 * @param patterns the data
 * @param coefficients one a column
 * @source firth-1993
 */
export function penalisedPoint(patterns: Patterns, coefficients: Float64Array): PenalisedPoint {
  const { columns, x, products, trials, events } = patterns
  const rows = trials.length
  const chance = new Float64Array(rows)
  /** The lower triangle of the information, row by row. */
  const triangle = new Float64Array((columns * (columns + 1)) / 2)
  let logLikelihood = 0
  /** Of 1 + odds, whose logarithm is taken once. */
  let product = 1
  for (let r = 0; r < rows; r++) {
    const at = r * columns
    let linear = 0
    for (let j = 0; j < columns; j++) linear += (x[at + j] as number) * (coefficients[j] as number)
    const n = trials[r] as number
    const s = events[r] as number
    /** Of the rarer outcome over the other; never above 1. */
    const odds = Math.exp(-Math.abs(linear))
    const larger = 1 / (1 + odds)
    const pi = linear > 0 ? larger : odds * larger
    chance[r] = pi
    logLikelihood -= Math.abs(linear) * (linear > 0 ? n - s : s)
    if (n === 1 && product < LARGE) product *= 1 + odds
    else logLikelihood -= n * Math.log1p(odds)
    const weight = n * odds * larger * larger
    for (let t = 0, p = r * triangle.length; t < triangle.length; t++, p++)
      triangle[t] = (triangle[t] as number) + weight * (products[p] as number)
  }
  logLikelihood -= Math.log(product)
  const information = new Float64Array(columns * columns)
  for (let j = 0, t = 0; j < columns; j++)
    for (let k = 0; k <= j; k++, t++) {
      information[j * columns + k] = triangle[t] as number
      information[k * columns + j] = triangle[t] as number
    }
  const root = choleskyOf(information, columns)
  if (root === undefined)
    return { coefficients, logLikelihood: Number.NEGATIVE_INFINITY, score: new Float64Array(columns), information }
  for (let j = 0; j < columns; j++) logLikelihood += Math.log(root.lower[j * columns + j] as number)
  return { coefficients, logLikelihood, score: penalisedScore(patterns, { chance, root }), information }
}

/** A product beyond this might overflow. */
const LARGE = 1e300

function penalisedScore(
  { columns, x, products, trials, events }: Patterns,
  { chance, root }: { chance: Float64Array; root: Cholesky },
): Float64Array {
  const score = new Float64Array(columns)
  const inverse = squareOf(inverseOf(root), columns)
  for (let r = 0; r < trials.length; r++) {
    const at = r * columns
    // Two sums, so that one need not wait for the other.
    let leverage = 0
    let rest = 0
    const first = r * inverse.length
    const even = inverse.length & ~1
    for (let t = 0; t < even; t += 2) {
      leverage += (inverse[t] as number) * (products[first + t] as number)
      rest += (inverse[t + 1] as number) * (products[first + t + 1] as number)
    }
    if (even < inverse.length) rest += (inverse[even] as number) * (products[first + even] as number)
    leverage += rest
    const n = trials[r] as number
    const pi = chance[r] as number
    const residual = (events[r] as number) - n * pi + n * pi * (1 - pi) * leverage * (0.5 - pi)
    for (let j = 0; j < columns; j++) score[j] = (score[j] as number) + residual * (x[at + j] as number)
  }
  return score
}

/** The inverse of A from that of its root, as the lower triangle; what stands on both sides of the diagonal doubled. */
function squareOf(root: Float64Array, columns: number): Float64Array {
  const square = new Float64Array((columns * (columns + 1)) / 2)
  for (let i = 0, t = 0; i < columns; i++)
    for (let j = 0; j <= i; j++, t++) {
      let sum = 0
      for (let k = i; k < columns; k++) sum += (root[k * columns + i] as number) * (root[k * columns + j] as number)
      square[t] = i === j ? sum : 2 * sum
    }
  return square
}

const ENOUGH_STEPS = 400
const ENOUGH_HALVINGS = 40
/** Below this gain a step is safe, and too small for the likelihood to show it. */
const SMALL_GAIN = 1e-6
const NO_GAIN = 1e-24
/** A safe step may seem to fall by this. */
const ROUNDING = 1e-9

/**
 * The top of the penalised likelihood over some of the coefficients, the others held: Newton's step, halved until it climbs;
 * near the top with the curvature that the steps teach. Ends for every input.
 *
 * @param patterns the data
 * @param from where to start, the columns that may move, and the gain of likelihood that is not worth a step (preset: none that shows)
 * @source firth-1993
 */
export function climb(
  patterns: Patterns,
  from: { coefficients: Float64Array; free: readonly number[]; enough?: number },
): PenalisedPoint {
  const { free, enough = NO_GAIN } = from
  let point = penalisedPoint(patterns, from.coefficients)
  let curvature = point.information
  let near = false
  for (let step = 0; step < ENOUGH_STEPS && free.length > 0; step++) {
    const direction = newtonStep({ curvature, score: point.score }, free)
    if (direction === undefined) return point
    const gain = free.reduce((sum, j, i) => sum + (point.score[j] ?? 0) * (direction[i] ?? 0), 0)
    const small = gain < SMALL_GAIN
    if (gain < enough) return point
    const work = { point, free, direction }
    const next = firstHigher(patterns, { ...work, least: point.logLikelihood - (small ? ROUNDING : 0) })
    if (next === undefined) return point
    near ||= small
    curvature = near ? learntCurvature(curvature, { from: point, to: next }) : next.information
    point = next
  }
  return point
}

interface Step {
  point: PenalisedPoint
  free: readonly number[]
  direction: Float64Array
}

function moved({ point, free, direction }: Step, size: number): Float64Array {
  const coefficients = Float64Array.from(point.coefficients)
  for (const [i, j] of free.entries()) coefficients[j] = (coefficients[j] ?? 0) + size * (direction[i] ?? 0)
  return coefficients
}

function newtonStep(
  { curvature, score }: { curvature: Float64Array; score: Float64Array },
  free: readonly number[],
): Float64Array | undefined {
  const columns = score.length
  const part = new Float64Array(free.length * free.length)
  for (const [row, j] of free.entries())
    for (const [column, k] of free.entries()) part[row * free.length + column] = curvature[j * columns + k] as number
  const root = choleskyOf(part, free.length)
  const slope = Float64Array.from(free, (j) => score[j] as number)
  return root && solveWith(root, slope)
}

/** The whole step, or the longest half of a half of it after which the function is above the least allowed. */
function firstHigher(patterns: Patterns, work: Step & { least: number }): PenalisedPoint | undefined {
  const longest = work.direction.reduce((most, part) => Math.max(most, Math.abs(part)), 0)
  for (let size = Math.min(1, LONGEST_STEP / longest), halving = 0; halving < ENOUGH_HALVINGS; halving++, size /= 2) {
    const next = penalisedPoint(patterns, moved(work, size))
    if (next.logLikelihood > work.least) return next
  }
  return undefined
}

/** In units of the scaled covariates. */
const LONGEST_STEP = 5
