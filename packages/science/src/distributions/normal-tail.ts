import { twoSidedNormalQuantile } from './normal.ts'

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI)
/** From here the continued fraction of the tail converges faster than the series of the middle. */
const FRACTION_FROM = 2.5
const ENOUGH_TERMS = 500

/**
 * The chance that a standard normal variable is at most z. The lower tail keeps its digits.
 *
 * @param z standard deviations from the mean
 * @source abramowitz-stegun-26
 * @example
 * normalCdf(-1.959963984540054) // => 0.025
 */
export function normalCdf(z: number): number {
  if (z <= -FRACTION_FROM) return normalDensity(z) * millsRatio(-z)
  if (z >= FRACTION_FROM) return 1 - normalDensity(z) * millsRatio(z)
  return 0.5 + normalDensity(z) * oddSeries(z)
}

/**
 * The natural logarithm of the chance that a standard normal variable is at most z; good where the chance itself is no longer a number.
 *
 * @param z standard deviations from the mean
 * @source abramowitz-stegun-26
 * @example
 * logNormalCdf(-40) // => -804.6084420137538
 */
export function logNormalCdf(z: number): number {
  if (z <= -FRACTION_FROM) return (-z * z) / 2 - Math.log(ROOT_TWO_PI) + Math.log(millsRatio(-z))
  return z >= FRACTION_FROM ? Math.log1p(-normalCdf(-z)) : Math.log(normalCdf(z))
}

/**
 * The standard normal quantile.
 *
 * @param p lower tail, above 0 and below 1
 * @source abramowitz-stegun-26
 * @example
 * normalQuantile(0.975) // => 1.959963984540054
 */
export function normalQuantile(p: number): number {
  if (p === 0.5) return 0
  return p < 0.5 ? -twoSidedNormalQuantile(1 - 2 * p) : twoSidedNormalQuantile(2 * p - 1)
}

function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / ROOT_TWO_PI
}

/** Upper tail over density, z ≥ 2.5: 1/(z + 1/(z + 2/(z + …))), by Lentz's rule. */
function millsRatio(z: number): number {
  let value = z
  let c = z
  let d = 0
  for (let k = 1; k < ENOUGH_TERMS; k++) {
    d = 1 / (z + k * d)
    c = z + k / c
    value *= c * d
    if (Math.abs(c * d - 1) < Number.EPSILON) break
  }
  return 1 / value
}

/** z + z³/3 + z⁵/15 + …, every term of one sign. */
function oddSeries(z: number): number {
  let term = z
  let sum = z
  for (let k = 3; k < ENOUGH_TERMS; k += 2) {
    term *= (z * z) / k
    if (sum + term === sum) break
    sum += term
  }
  return sum
}
