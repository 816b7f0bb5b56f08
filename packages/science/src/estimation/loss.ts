import type { Loss } from './fit-problem.ts'

/**
 * What a reading adds to the misfit, and the share with which it counts, by how far it is off in standard deviations.
 * Wanted because of twenty readings one may be impossible, and must not bend the rest.
 *
 * Squares: r²/2. Huber: r²/2 up to the limit k, then k·|r| − k²/2. Student: ν/2·ln(1 + r²/ν), of the t distribution with ν degrees of
 * freedom, so scaled that a small r costs as much as with squares. The weight is the slope over r.
 *
 * Special cases: with Student the pull of a reading fades the further it is off, so that there may be several lowest points.
 *
 * @param r standard deviations off
 * @param loss which of the three
 * @source huber-1964
 * @source lange-little-taylor-1989
 * @example
 * lossOf(3, { kind: 'huber', limit: 1 }).weight // => 0.3333333333333333
 */
export function lossOf(r: number, loss: Loss): { value: number; weight: number } {
  const size = Math.abs(r)
  switch (loss.kind) {
    case 'squares':
      return { value: (r * r) / 2, weight: 1 }
    case 'huber':
      return size <= loss.limit
        ? { value: (r * r) / 2, weight: 1 }
        : { value: loss.limit * (size - loss.limit / 2), weight: loss.limit / size }
    case 'student':
      return {
        value: (loss.freedom / 2) * Math.log1p((r * r) / loss.freedom),
        weight: 1 / (1 + (r * r) / loss.freedom),
      }
  }
}
