/**
 * The standard deviation, in powers of ten, that counting alone puts between two counts of the same water.
 * Wanted to tell a duplicate that disagrees from one that merely counted other colonies.
 *
 * s = log10(e) · √(1/a + 1/b): the variance of a Poisson count's logarithm is about the inverse of the count.
 *
 * Special cases: poor below about ten colonies, where it is too small.
 *
 * @param counts colonies behind the one and the other count, above 0
 * @throws RangeError when a count is not above 0
 * @source none: the spread of a logarithm by its first derivative, for a Poisson count
 * @example
 * log10SpreadOfCounts({ a: 100, b: 100 }) // => 0.06141851463713754
 */
export function log10SpreadOfCounts({ a, b }: { a: number; b: number }): number {
  if (!(a > 0 && b > 0)) throw new RangeError(`Cannot compare counts because both must be above 0: got ${a} and ${b}`)
  return Math.LOG10E * Math.sqrt(1 / a + 1 / b)
}

/**
 * How far two concentrations lie apart, in powers of ten, never below 0.
 *
 * @param values of one unit, above 0
 * @throws RangeError when a value is not above 0
 * @source none: a definition
 * @example
 * log10Apart({ a: 1000, b: 10 }) // => 2
 */
export function log10Apart({ a, b }: { a: number; b: number }): number {
  if (!(a > 0 && b > 0)) throw new RangeError(`Cannot compare counts because both must be above 0: got ${a} and ${b}`)
  return Math.abs(Math.log10(a / b))
}
