export interface Slope {
  value: number
  slope: number
}

export interface NewtonRoot {
  /** A function that rises through 0 somewhere, with its slope. */
  rising(x: number): Slope
  start: number
  /** A distance over which the function bends little, above 0: a first step outwards, and what counts as near. */
  step: number
}

/** Logarithms beyond this are no numbers to a double. */
const WIDEST = 700
/** From far up an exponential Newton's step is one of its logarithms: this many and some to spare. */
const ENOUGH_STEPS = 1000
/** Of a step. Newton's rule squares it, so that what is left after the last step can't be seen. */
const NEAR = 1e-7
/** No step is longer than this many of those given; where it would be, the next may be twice as long. */
const LONGEST = 8

/**
 * Where a rising function of a logarithm crosses 0, by Newton's step inside a bracket that both sides close; outwards by doubling where the
 * slope says nothing. Ends for every input; a root beyond ±700 of the start gives a place beyond.
 *
 * @param search the function with its slope, a start and a step
 * @source numerical-safeguard
 * @example
 * newtonRoot({ rising: (x) => ({ value: x - 3, slope: 1 }), start: 0, step: 1 }) // => 3
 */
export function newtonRoot({ rising, start, step }: NewtonRoot): number {
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  let x = start
  for (let n = 0, wide = step; n < ENOUGH_STEPS && Math.abs(x - start) < WIDEST; n++) {
    const { value, slope } = rising(x)
    if (value === 0) return x
    if (value < 0) low = x
    else high = x
    const newton = x - value / slope
    if (Math.abs(newton - x) <= Math.max(NEAR * step, Number.EPSILON * Math.abs(x))) return newton
    const next = Math.min(x + LONGEST * wide, Math.max(x - LONGEST * wide, newton))
    if (next !== newton) wide *= 2
    if (next > low && next < high) x = next
    else if (high - low < Number.POSITIVE_INFINITY) {
      if (high - low <= Number.EPSILON * Math.abs(x)) return x
      x = (low + high) / 2
    } else {
      wide *= 2
      x += value < 0 ? wide : -wide
    }
  }
  return x
}
