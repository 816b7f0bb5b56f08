import { invert } from './invert.ts'
import { devianceTerm, stirlingError } from './stirling.ts'

export interface GammaTail {
  /** Shape, above 0; the scale is 1. */
  shape: number
  /** Which tail the probability is of; lower by default. */
  tail?: 'lower' | 'upper'
}

/**
 * The probability that a gamma variable of scale 1 is at most x (or above it, for the upper tail), 0 to 1.
 * Wanted for incubation periods and for the exact limits of a count.
 *
 * Series below shape + 1, continued fraction above; each tail keeps its own digits.
 *
 * Special cases: lower tail 0 at x ≤ 0.
 *
 * @param x where, in units of the scale
 * @param tail shape above 0, and which tail
 * @throws RangeError when the shape isn't above 0
 * @source abramowitz-stegun-26
 * @example
 * gammaCdf(1, { shape: 1 }) // => 0.6321205588285577
 */
export function gammaCdf(x: number, { shape, tail = 'lower' }: GammaTail): number {
  if (!(shape > 0))
    throw new RangeError(`Cannot use a gamma distribution because its shape must be above 0: got ${shape}`)
  if (x <= 0) return tail === 'lower' ? 0 : 1
  const scaled = Math.exp(-stirlingError(shape) - devianceTerm(shape, x)) / Math.sqrt(2 * Math.PI * shape)
  if (x < shape + 1) {
    const lower = scaled * series(x, shape)
    return tail === 'lower' ? lower : 1 - lower
  }
  const upper = scaled * shape * fraction(x, shape)
  return tail === 'upper' ? upper : 1 - upper
}

export interface LogGamma {
  /** ln of the probability of at most x; −∞ at x ≤ 0. */
  logLower(x: number): number
  /** ln of the probability of more than x. */
  logUpper(x: number): number
  logDensity(x: number): number
}

/**
 * The natural logarithms of both tails and of the density of a gamma distribution of scale 1; good where the probabilities themselves are
 * no longer numbers, and quick for many x of one shape.
 *
 * @param shape above 0
 * @throws RangeError when the shape isn't above 0
 * @source abramowitz-stegun-26
 * @example
 * logGamma(1).logUpper(2000) // => -2000
 */
export function logGamma(shape: number): LogGamma {
  if (!(shape > 0))
    throw new RangeError(`Cannot use a gamma distribution because its shape must be above 0: got ${shape}`)
  const constant = -stirlingError(shape) - Math.log(2 * Math.PI * shape) / 2
  const scaled = (x: number): number => constant - devianceTerm(shape, x)
  const below = (x: number): number => scaled(x) + Math.log(series(x, shape))
  const above = (x: number): number => scaled(x) + Math.log(shape * fraction(x, shape))
  const isLow = (x: number): boolean => x < shape + 1
  return {
    logLower: (x) => (x <= 0 ? Number.NEGATIVE_INFINITY : isLow(x) ? below(x) : Math.log1p(-Math.exp(above(x)))),
    logUpper: (x) => (x <= 0 ? 0 : isLow(x) ? Math.log1p(-Math.exp(below(x))) : above(x)),
    logDensity: (x) => (x <= 0 ? Number.NEGATIVE_INFINITY : scaled(x) + Math.log(shape / x)),
  }
}

/**
 * The value a gamma variable of scale 1 falls below (or exceeds, for the upper tail) with the given probability.
 *
 * Special cases: the lower quantile of 0 is 0.
 *
 * @param probability of the named tail, 0 to 1 (the upper tail excludes 0)
 * @param tail shape above 0, and which tail
 * @throws RangeError when the shape isn't above 0
 * @source abramowitz-stegun-26
 * @example
 * gammaQuantile(0.025, { shape: 1, tail: 'upper' }) // => 3.6888794541139363
 */
export function gammaQuantile(probability: number, { shape, tail = 'lower' }: GammaTail): number {
  const sign = tail === 'lower' ? 1 : -1
  return invert({
    probability: sign * probability,
    lower: 0,
    upper: Number.POSITIVE_INFINITY,
    start: shape,
    cdf: (x) => sign * gammaCdf(x, { shape, tail }),
    density: (x) =>
      ((Math.exp(-stirlingError(shape) - devianceTerm(shape, x)) / Math.sqrt(2 * Math.PI * shape)) * shape) / x,
  })
}

function series(x: number, shape: number): number {
  let term = 1
  let sum = 1
  for (let n = 1; term > sum * Number.EPSILON; n++) {
    term *= x / (shape + n)
    sum += term
  }
  return sum
}

const TINY = 1e-300
const ENOUGH_TERMS = 200_000

/** Lentz's evaluation of the continued fraction of the upper incomplete gamma function. */
function fraction(x: number, shape: number): number {
  let b = x + 1 - shape
  let c = 1 / TINY
  let d = 1 / b
  let value = d
  for (let i = 1; i < ENOUGH_TERMS; i++) {
    const a = -i * (i - shape)
    b += 2
    d = a * d + b
    d = 1 / (Math.abs(d) < TINY ? TINY : d)
    c = b + a / c
    if (Math.abs(c) < TINY) c = TINY
    value *= d * c
    if (Math.abs(d * c - 1) < Number.EPSILON) break
  }
  return value
}
