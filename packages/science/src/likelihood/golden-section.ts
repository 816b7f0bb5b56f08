const GOLDEN = (Math.sqrt(5) - 1) / 2

/** A place and how high a function is there. */
export interface Height {
  at: number
  value: number
}

/**
 * The highest place of a function that has one top between two others, by golden section.
 *
 * Special cases: a function with several tops gives one of them. A top is flat: rounding leaves its place known to half the digits.
 *
 * @param f the function
 * @param search where, and how close the ends must come, relative to their size where that is above 1
 * @source numerical-safeguard
 * @example
 * highestBetween((x) => -Math.abs(x - 1), { from: 0, to: 3, agreement: 1e-15 }).at // => 1
 */
export function highestBetween(
  f: (x: number) => number,
  { from, to, agreement }: { from: number; to: number; agreement: number },
): Height {
  const height = (at: number): Height => ({ at, value: f(at) })
  let [low, high] = [from, to]
  let left = height(high - GOLDEN * (high - low))
  let right = height(low + GOLDEN * (high - low))
  while (high - low > agreement * Math.max(1, Math.abs(low)) && left.at < right.at) {
    if (left.value >= right.value) {
      high = right.at
      right = left
      left = height(high - GOLDEN * (high - low))
    } else {
      low = left.at
      left = right
      right = height(low + GOLDEN * (high - low))
    }
  }
  return left.value >= right.value ? left : right
}
