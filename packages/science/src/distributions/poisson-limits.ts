import { gammaQuantile } from './gamma.ts'

export interface Interval {
  lower: number
  upper: number
}

/**
 * Exact central limits of the mean of a Poisson count, in the unit of the count.
 * Wanted because a plate of few colonies is a wide statement.
 *
 * lower = gamma quantile (1−level)/2 of shape count; upper = gamma quantile 1−(1−level)/2 of shape count + 1.
 *
 * Special cases: lower is 0 for a count of 0.
 *
 * @param count counted, at least 0 (need not be whole)
 * @param level confidence, above 0 and below 1
 * @source garwood-1936
 * @example
 * poissonLimits(0, 0.95).upper // => 3.6888794541139363
 */
export function poissonLimits(count: number, level: number): Interval {
  const each = (1 - level) / 2
  return {
    lower: count === 0 ? 0 : gammaQuantile(each, { shape: count }),
    upper: gammaQuantile(each, { shape: count + 1, tail: 'upper' }),
  }
}
