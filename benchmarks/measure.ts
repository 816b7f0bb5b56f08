/** One line of the table: what was measured, its budget where it has one, and the ratio to a peer where there is one. */
export interface Measurement {
  readonly what: string
  readonly value: number
  readonly unit: string
  /** highest value allowed */
  readonly budget?: number
  readonly ratio?: { readonly to: string; readonly times: number }
}

/** The median time of some runs in milliseconds, after one run to warm up. */
export async function medianMs(run: () => unknown, runs = 7): Promise<number> {
  await run()
  const times: number[] = []
  for (let n = 0; n < runs; n += 1) {
    const began = performance.now()
    await run()
    times.push(performance.now() - began)
  }
  return times.toSorted((a, b) => a - b)[Math.floor(runs / 2)] ?? Number.POSITIVE_INFINITY
}
