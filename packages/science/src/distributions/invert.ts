export interface Inversion {
  /** What `cdf` must reach. */
  probability: number
  lower: number
  upper: number
  start: number
  /** Rising in x. */
  cdf(x: number): number
  /** Its slope. */
  density(x: number): number
}

const ENOUGH_STEPS = 400
const AGREEMENT = 1e-15

/**
 * The x at which a rising function reaches a value: Newton's step where it stays inside the bracket and shrinks it,
 * halving otherwise. Ends for every input.
 *
 * @param inversion the function, its slope, the bracket (upper may be infinite) and a start inside it
 * @source numerical-safeguard
 * @example
 * invert({ probability: 4, lower: 0, upper: 10, start: 1, cdf: (x) => x * x, density: (x) => 2 * x }) // => 2
 */
export function invert({ probability, lower, upper, start, cdf, density }: Inversion): number {
  if (probability <= cdf(lower)) return lower
  if (Number.isFinite(upper) && probability >= cdf(upper)) return upper
  let low = lower
  let high = upper
  let x = start
  for (let step = 0; step < ENOUGH_STEPS; step++) {
    const excess = cdf(x) - probability
    if (excess === 0) return x
    if (excess > 0) high = x
    else low = x
    const newton = x - excess / density(x)
    const next = newton > low && newton < high ? newton : between(low, high)
    if (Math.abs(next - x) <= AGREEMENT * Math.abs(x)) return next
    x = next
  }
  return x
}

/** Halves the bracket; on a wide one by ratio, so that a tiny answer is reached as fast as a large one. */
function between(low: number, high: number): number {
  if (!Number.isFinite(high)) return 2 * low + 1
  if (low === 0) return high / 16
  return high / low > 4 ? Math.sqrt(low * high) : (low + high) / 2
}
