/** A value, or what is known of it: below a limit, above one, or between two. */
export type Reading = number | { below: number } | { above: number } | { between: [number, number] }

/** A reading as what it lies between; low = high for a value, 0 and infinite where one side is open. */
export interface Span {
  low: number
  high: number
}

/**
 * What a reading lies between.
 *
 * @param reading a value, or what is known of it
 * @source none: it computes nothing of the trade
 * @example
 * spanOf({ below: 10 }).low // => 0
 */
export function spanOf(reading: Reading): Span {
  if (typeof reading === 'number') return { low: reading, high: reading }
  if ('below' in reading) return { low: 0, high: reading.below }
  if ('above' in reading) return { low: reading.above, high: Number.POSITIVE_INFINITY }
  return { low: reading.between[0], high: reading.between[1] }
}

/**
 * Readings split into values and limits, where nothing but "below" is open; otherwise nothing.
 *
 * @param spans readings
 * @source none: it computes nothing of the trade
 * @example
 * leftCensored([{ low: 0, high: 10 }, { low: 12, high: 12 }]).limits // => [10]
 */
export function leftCensored(spans: readonly Span[]): { values: number[]; limits: number[] } | undefined {
  if (!spans.every(({ low, high }) => low === high || low === 0)) return undefined
  return {
    values: spans.filter(({ low, high }) => low === high).map(({ low }) => low),
    limits: spans.filter(({ low, high }) => low !== high).map(({ high }) => high),
  }
}
