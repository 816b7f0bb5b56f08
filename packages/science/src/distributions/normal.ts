import { gammaQuantile } from './gamma.ts'

/**
 * The number of standard deviations either side of the mean that hold the given share of a normal distribution.
 *
 * z = √(2·q), q the quantile of a gamma distribution of shape ½.
 *
 * @param level share between the limits, above 0 and below 1
 * @source abramowitz-stegun-26
 * @example
 * twoSidedNormalQuantile(0.95) // => 1.959963984540054
 */
export function twoSidedNormalQuantile(level: number): number {
  return Math.sqrt(2 * gammaQuantile(1 - level, { shape: 0.5, tail: 'upper' }))
}
