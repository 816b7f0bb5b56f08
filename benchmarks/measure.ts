/** One line of the table: what was measured, its budget where it has one, and the ratio to a peer where there is one. */
export interface Measurement {
  readonly what: string
  readonly value: number
  readonly unit: string
  /** highest value allowed */
  readonly budget?: number
  /** How many times as long as a peer doing the same work in the same run; `atMost`: more is a failure. */
  readonly ratio?: { readonly to: string; readonly times: number; readonly atMost?: number }
  /** Why there is no ratio. */
  readonly note?: string
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

/**
 * The least processor time of some runs in milliseconds, all threads together, after one to warm up: what the work itself takes, also on a
 * machine that others use.
 */
export async function leastProcessorMs(run: () => unknown, runs = 5): Promise<number> {
  await run()
  let least = Number.POSITIVE_INFINITY
  for (let n = 0; n < runs; n += 1) {
    const began = process.cpuUsage()
    await run()
    const { user, system } = process.cpuUsage(began)
    least = Math.min(least, (user + system) / 1000)
  }
  return least
}
