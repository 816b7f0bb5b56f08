import { type Cholesky, choleskyOf, solveWith } from './cholesky.ts'

/** Rows with the same covariates, together. `x` holds the columns row by row, the first all 1. */
export interface Patterns {
  columns: number
  x: Float64Array
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
  const { columns, x, trials, events } = patterns
  const rows = trials.length
  const chance = new Float64Array(rows)
  const information = new Float64Array(columns * columns)
  let logLikelihood = 0
  for (let r = 0; r < rows; r++) {
    let linear = 0
    for (let j = 0; j < columns; j++) linear += (x[r * columns + j] ?? 0) * (coefficients[j] ?? 0)
    const pi = 1 / (1 + Math.exp(-linear))
    chance[r] = pi
    const [n, s] = [trials[r] ?? 0, events[r] ?? 0]
    logLikelihood -= s * softplus(-linear) + (n - s) * softplus(linear)
    const weight = n * pi * (1 - pi)
    for (let j = 0; j < columns; j++) {
      const weighed = weight * (x[r * columns + j] ?? 0)
      for (let k = 0; k <= j; k++)
        information[j * columns + k] = (information[j * columns + k] ?? 0) + weighed * (x[r * columns + k] ?? 0)
    }
  }
  for (let j = 0; j < columns; j++)
    for (let k = 0; k < j; k++) information[k * columns + j] = information[j * columns + k] ?? 0
  const root = choleskyOf(information, columns)
  if (root === undefined)
    return { coefficients, logLikelihood: Number.NEGATIVE_INFINITY, score: new Float64Array(columns), information }
  for (let j = 0; j < columns; j++) logLikelihood += Math.log(root.lower[j * columns + j] ?? 1)
  return { coefficients, logLikelihood, score: penalisedScore(patterns, { chance, root }), information }
}

function penalisedScore(
  { columns, x, trials, events }: Patterns,
  { chance, root }: { chance: Float64Array; root: Cholesky },
): Float64Array {
  const score = new Float64Array(columns)
  const part = new Float64Array(columns)
  const { lower } = root
  for (let r = 0; r < trials.length; r++) {
    const at = r * columns
    let leverage = 0
    for (let i = 0; i < columns; i++) {
      let sum = x[at + i] ?? 0
      for (let k = 0; k < i; k++) sum -= (lower[i * columns + k] ?? 0) * (part[k] ?? 0)
      sum /= lower[i * columns + i] ?? 1
      part[i] = sum
      leverage += sum * sum
    }
    const [n, pi] = [trials[r] ?? 0, chance[r] ?? 0]
    const residual = (events[r] ?? 0) - n * pi + n * pi * (1 - pi) * leverage * (0.5 - pi)
    for (let j = 0; j < columns; j++) score[j] = (score[j] ?? 0) + residual * (x[at + j] ?? 0)
  }
  return score
}

/** ln(1 + e^x) without overflow. */
function softplus(x: number): number {
  return x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x))
}

const ENOUGH_STEPS = 400
const ENOUGH_HALVINGS = 40
/** Below this gain a step is safe, and too small for the likelihood to show it. */
const SMALL_GAIN = 1e-6
const NO_GAIN = 1e-24
const SHORTEST_STEP = 1 / 64

/**
 * The top of the penalised likelihood over some of the coefficients, the others held: Newton's step, halved until it climbs.
 * Ends for every input.
 *
 * @param patterns the data
 * @param from where to start, and the columns that may move
 * @source firth-1993
 */
export function climb(
  patterns: Patterns,
  from: { coefficients: Float64Array; free: readonly number[] },
): PenalisedPoint {
  const { free } = from
  let point = penalisedPoint(patterns, from.coefficients)
  let before = Number.POSITIVE_INFINITY
  let size = 1
  for (let step = 0; step < ENOUGH_STEPS && free.length > 0; step++) {
    const direction = newtonStep(point, free)
    if (direction === undefined) return point
    const gain = free.reduce((sum, j, i) => sum + (point.score[j] ?? 0) * (direction[i] ?? 0), 0)
    const small = gain < SMALL_GAIN
    // A step that gains no less than the one before overshoots: the true curvature is less than the information.
    if (small && gain >= before) size /= 2
    if (gain < NO_GAIN || size < SHORTEST_STEP) return point
    before = gain
    const work = { point, free, direction }
    const next = small ? penalisedPoint(patterns, moved(work, size)) : firstHigher(patterns, work)
    if (next === undefined) return point
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

function newtonStep({ information, score }: PenalisedPoint, free: readonly number[]): Float64Array | undefined {
  const columns = score.length
  const part = Float64Array.from(free.flatMap((j) => free.map((k) => information[j * columns + k] ?? 0)))
  const root = choleskyOf(part, free.length)
  return (
    root &&
    solveWith(
      root,
      Float64Array.from(free, (j) => score[j] ?? 0),
    )
  )
}

function firstHigher(patterns: Patterns, work: Step): PenalisedPoint | undefined {
  const longest = work.direction.reduce((most, part) => Math.max(most, Math.abs(part)), 0)
  for (let size = Math.min(1, LONGEST_STEP / longest), halving = 0; halving < ENOUGH_HALVINGS; halving++, size /= 2) {
    const next = penalisedPoint(patterns, moved(work, size))
    if (next.logLikelihood > work.point.logLikelihood) return next
  }
  return undefined
}

/** In units of the scaled covariates. */
const LONGEST_STEP = 5
