/** A place and the slope of a function there. */
export interface SlopedPoint {
  coefficients: Float64Array
  score: Float64Array
}

/**
 * The curvature between two points as their slopes tell it, from one known before: the information alone leaves the penalty's own
 * curvature out, so that steps by it come near in a straight line only; with what each step teaches they come faster and faster.
 *
 * B + y·yᵀ/(yᵀs) − B·s·(B·s)ᵀ/(sᵀB·s), s the step and y the loss of slope on it.
 *
 * Special cases: the one known before where the slope doesn't fall along the step.
 *
 * @param known curvature, columns × columns, row by row
 * @param between the two points
 * @source numerical-safeguard
 */
export function learntCurvature(
  known: Float64Array,
  { from, to }: { from: SlopedPoint; to: SlopedPoint },
): Float64Array {
  const columns = from.score.length
  const step = to.coefficients.map((value, j) => value - (from.coefficients[j] as number))
  const lost = from.score.map((value, j) => value - (to.score[j] as number))
  const foreseen = step.map((_, j) => dot(known.subarray(j * columns, (j + 1) * columns), step))
  const [seen, expected] = [dot(lost, step), dot(foreseen, step)]
  if (!(seen > LEAST_FALL * expected)) return known
  const learnt = Float64Array.from(known)
  for (let j = 0; j < columns; j++)
    for (let k = 0; k < columns; k++) {
      const gained = ((lost[j] as number) * (lost[k] as number)) / seen
      const dropped = ((foreseen[j] as number) * (foreseen[k] as number)) / expected
      learnt[j * columns + k] = (learnt[j * columns + k] as number) + gained - dropped
    }
  return learnt
}

/** Below this share of what was foreseen, a fall of the slope is rounding. */
const LEAST_FALL = 1e-3

/**
 * The sum of products.
 *
 * @param one numbers
 * @param other as many
 * @source none: it computes nothing of the trade
 * @example
 * dot(Float64Array.of(1, 2), Float64Array.of(3, 4)) // => 11
 */
export function dot(one: Float64Array, other: Float64Array): number {
  let sum = 0
  for (let i = 0; i < one.length; i++) sum += (one[i] as number) * (other[i] as number)
  return sum
}
