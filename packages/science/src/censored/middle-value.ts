/** A reading, or the limit it lies below. */
export interface Placed {
  value: number
  /** The value is a limit: the true one lies below it. */
  limit: boolean
}

/** The middle of some readings, as closely as it can be told without supposing anything. */
export type Middle = number | { below: number } | { between: [number, number] }

/**
 * The median of readings of which some lie below limits, in their own unit, as far as it is known.
 * Wanted because half of a limit put in its place makes a number out of nothing.
 *
 * The median lies between that with every reading below a limit at 0 and that with each at its limit. Where both are the same it is
 * known, whatever the readings below the limits are.
 *
 * Special cases: nothing of no readings; of an even number, the mean of the two in the middle.
 *
 * @param readings values, and limits of those below one, all at least 0, in any order
 * @source none: the definition of the median
 * @example
 * middleOf([{ value: 100, limit: true }, { value: 200, limit: false }, { value: 900, limit: false }]) // => 200
 */
export function middleOf(readings: readonly Placed[]): Middle | undefined {
  const least = middleTwo(readings.map((each) => (each.limit ? { ...each, value: 0 } : each)))
  const most = middleTwo(readings)
  if (least === undefined || most === undefined) return undefined
  const [lower, upper] = [mean(least), mean(most)]
  if (lower === upper) return upper
  return lower === 0 && most.every(({ limit }) => limit) ? { below: upper } : { between: [lower, upper] }
}

function middleTwo(readings: readonly Placed[]): [Placed, Placed] | undefined {
  const sorted = readings.toSorted((a, b) => a.value - b.value || Number(b.limit) - Number(a.limit))
  const half = sorted.length / 2
  const [low, high] = [sorted[Math.ceil(half) - 1], sorted[Math.floor(half)]]
  return low === undefined || high === undefined ? undefined : [low, high]
}

const mean = ([low, high]: [Placed, Placed]): number => (low.value + high.value) / 2
