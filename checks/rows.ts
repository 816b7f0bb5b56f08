import { expect, test } from 'vitest'

/** Where a figure is from, after how it is known: read in the publication, recomputed for this check, or from memory. */
export type From = `${'seen' | 'computed' | 'memory'}: ${string}`

/** How far a result may lie from what is wanted: an amount, or a share of it and perhaps an amount. */
export type Tolerance = number | { share: number; and?: number }

/** One row of a table of outside values; the tolerance says in words why it is what it is. */
export type Row<Input, Want = number> = readonly [
  name: string,
  input: Input,
  want: Want,
  tolerance: Tolerance,
  whyThisTolerance: string,
  from: From,
]

/**
 * Makes a test of each row: what the product gives for the input is what the source wants, within the tolerance.
 *
 * @param rows name | input | want | tolerance | why this tolerance | from
 * @param of the product's answer to an input: one number, or as many as are wanted
 */
export function hold<Input>(
  rows: readonly Row<Input, number | readonly number[]>[],
  of: (input: Input) => number | undefined | readonly (number | undefined)[],
): void {
  for (const [name, input, want, tolerance, why, from] of rows) {
    test(`${name} (${from})`, () => {
      const [got, wanted] = [[of(input)].flat(), [want].flat()]
      expect(got).toHaveLength(wanted.length)
      const far = wanted.flatMap((each, at) => {
        const off = Math.abs((got[at] ?? Number.NaN) - each)
        return off <= allowed(tolerance, each) ? [] : [{ got: got[at], want: each, allowed: allowed(tolerance, each) }]
      })
      expect(far, why).toEqual([])
    })
  }
}

/**
 * Makes a test of each row: the range the product gives for the input holds what the source says, widened by the tolerance.
 *
 * @param rows name | input | want | tolerance | why this tolerance | from
 * @param of the range the product gives for an input
 */
export function holdWithin<Input>(
  rows: readonly Row<Input>[],
  of: (input: Input) => { lower: number; upper: number },
): void {
  for (const [name, input, want, tolerance, why, from] of rows) {
    test(`${name} (${from})`, () => {
      const { lower, upper } = of(input)
      expect(lower, why).toBeLessThanOrEqual(want + allowed(tolerance, want))
      expect(upper, why).toBeGreaterThanOrEqual(want - allowed(tolerance, want))
    })
  }
}

function allowed(tolerance: Tolerance, want: number): number {
  return typeof tolerance === 'number' ? tolerance : tolerance.share * Math.abs(want) + (tolerance.and ?? 0)
}
