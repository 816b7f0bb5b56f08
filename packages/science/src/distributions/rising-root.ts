export interface RisingRoot {
  /** Rises through 0 somewhere. */
  rising(x: number): number
  start: number
  /** First distance looked either side of the start, above 0; doubled until the root is caught. */
  step: number
  /** How close the bracket must come, relative to the root where that is above 1; 1e-14 unless given. */
  agreement?: number
}

/** Logarithms beyond this are no numbers to a double. */
const WIDEST = 700
const ENOUGH_STEPS = 200
const AGREEMENT = 1e-14

/**
 * Where a rising function of a logarithm crosses 0: the bracket grows from the start, then a secant with halving (Illinois rule)
 * closes it. Ends for every input; a root beyond ±700 of the start gives the edge.
 *
 * @param search the function, a start and a first step
 * @source numerical-safeguard
 * @example
 * risingRoot({ rising: (x) => x - 3, start: 0, step: 1 }) // => 3
 */
export function risingRoot({ rising, start, step, agreement = AGREEMENT }: RisingRoot): number {
  let [low, high] = [start - step, start + step]
  let atLow = rising(low)
  let atHigh = rising(high)
  for (let wide = step; atLow > 0 && wide < WIDEST; wide *= 2) {
    high = low
    atHigh = atLow
    low -= 2 * wide
    atLow = rising(low)
  }
  for (let wide = step; atHigh < 0 && wide < WIDEST; wide *= 2) {
    low = high
    atLow = atHigh
    high += 2 * wide
    atHigh = rising(high)
  }
  return closed({ rising, low, high, atLow, atHigh, agreement })
}

interface Bracket {
  rising(x: number): number
  low: number
  high: number
  atLow: number
  atHigh: number
  agreement: number
}

function closed({ rising, agreement, ...bracket }: Bracket): number {
  let { low, high, atLow, atHigh } = bracket
  for (let step = 0, side = 0; step < ENOUGH_STEPS && high - low > agreement * Math.max(1, Math.abs(low)); step++) {
    const secant = (low * atHigh - high * atLow) / (atHigh - atLow)
    const middle = step % 4 === 3 || !(secant > low && secant < high) ? (low + high) / 2 : secant
    const value = rising(middle)
    if (value === 0) return middle
    if (value < 0) {
      low = middle
      atLow = value
      if (side === -1) atHigh /= 2
      side = -1
    } else {
      high = middle
      atHigh = value
      if (side === 1) atLow /= 2
      side = 1
    }
  }
  return (low + high) / 2
}
