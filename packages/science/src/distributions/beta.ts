import { invert } from './invert.ts'
import { devianceTerm, stirlingError } from './stirling.ts'

export interface BetaArguments {
  /** First shape, above 0. */
  a: number
  /** Second shape, above 0. */
  b: number
}

/**
 * The probability that a beta variable is at most x: the regularised incomplete beta function, 0 to 1.
 * Wanted because exact limits of a proportion are quantiles of it.
 *
 * I = xᵃ(1−x)ᵇ / (a·B(a, b)) · continued fraction, on the side where the fraction converges fast.
 *
 * Special cases: 0 at x ≤ 0, 1 at x ≥ 1.
 *
 * @param x where, 0 to 1
 * @param shapes the two shapes, above 0
 * @throws RangeError when a shape isn't above 0
 * @source abramowitz-stegun-26
 * @example
 * betaCdf(0.5, { a: 2, b: 2 }) // => 0.5
 */
export function betaCdf(x: number, { a, b }: BetaArguments): number {
  requireShapes({ a, b })
  if (x <= 0) return 0
  if (x >= 1) return 1
  const lowerSide = x < (a + 1) / (a + b + 2)
  return lowerSide ? tail({ a, b, x, rest: 1 - x }) : 1 - tail({ a: b, b: a, x: 1 - x, rest: x })
}

/**
 * The value below which a beta variable falls with the given probability, 0 to 1.
 *
 * Special cases: 0 at probability 0, 1 at probability 1.
 *
 * @param probability lower tail, 0 to 1
 * @param shapes the two shapes, above 0
 * @throws RangeError when a shape isn't above 0
 * @source abramowitz-stegun-26
 * @example
 * betaQuantile(0.975, { a: 1, b: 20 }) // => 0.16843347098308536
 */
export function betaQuantile(probability: number, { a, b }: BetaArguments): number {
  requireShapes({ a, b })
  return invert({
    probability,
    lower: 0,
    upper: 1,
    start: a / (a + b),
    cdf: (x) => betaCdf(x, { a, b }),
    density: (x) => (scaledDensity({ a, b, x, rest: 1 - x }) * a) / (x * (1 - x)),
  })
}

interface Side extends BetaArguments {
  x: number
  rest: number
}

function tail(side: Side): number {
  return scaledDensity(side) * continuedFraction(side)
}

/** xᵃ(1−x)ᵇ / (a·B(a, b)) through the saddle-point form of the binomial density. */
function scaledDensity({ a, b, x, rest }: Side): number {
  const n = a + b
  const exponent =
    stirlingError(n) - stirlingError(a) - stirlingError(b) - devianceTerm(a, n * x) - devianceTerm(b, n * rest)
  return (Math.exp(exponent) * Math.sqrt(n / (2 * Math.PI * a * b)) * b) / n
}

const TINY = 1e-300
const ENOUGH_TERMS = 200_000

/** Lentz's evaluation of the continued fraction of the incomplete beta function. */
function continuedFraction({ a, b, x }: Side): number {
  let c = 1
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1))
  let value = d
  for (let m = 1; m < ENOUGH_TERMS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    d = 1 / awayFromZero(1 + even * d)
    c = awayFromZero(1 + even / c)
    value *= d * c
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    d = 1 / awayFromZero(1 + odd * d)
    c = awayFromZero(1 + odd / c)
    value *= d * c
    if (Math.abs(d * c - 1) < Number.EPSILON) break
  }
  return value
}

function awayFromZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value
}

function requireShapes({ a, b }: BetaArguments): void {
  if (!(a > 0 && b > 0))
    throw new RangeError(`Cannot use a beta distribution because its shapes must be above 0: got ${a}, ${b}`)
}
