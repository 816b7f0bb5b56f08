import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { likeliestShares } from './turnbull-shares.ts'

const run = fc.tuple(fc.nat({ max: 7 }), fc.nat({ max: 7 }), fc.integer({ min: 1, max: 9 }))

test('it is where a plain and slow repetition of the readings’ own step ends', () => {
  fc.assert(
    fc.property(fc.array(run, { minLength: 1, maxLength: 12 }), (runs) => {
      const sorted = runs.map(([a, b, count]) => ({ first: Math.min(a, b), last: Math.max(a, b), count }))
      // A cell no reading ends in has no reason to be one.
      const groups = [...sorted, ...Array.from({ length: 8 }, (_, k) => ({ first: k, last: k, count: 1 }))]
      const readings = groups.reduce((sum, { count }) => sum + count, 0)
      let shares = Array.from({ length: 8 }, () => 1 / 8)
      for (let i = 0; i < 3000; i++) {
        const held = groups.map(({ first, last }) =>
          shares.slice(first, last + 1).reduce((sum, share) => sum + share, 0),
        )
        shares = shares.map(
          (share, k) =>
            (share / readings) *
            groups.reduce(
              (sum, { first, last, count }, g) => sum + (first <= k && k <= last ? count / (held[g] ?? 1) : 0),
              0,
            ),
        )
      }
      const got = likeliestShares(
        {
          first: Int32Array.from(groups, ({ first }) => first),
          last: Int32Array.from(groups, ({ last }) => last),
          count: Float64Array.from(groups, ({ count }) => count),
          readings,
        },
        8,
      )
      for (const [k, share] of shares.entries()) expect(got[k]).toBeCloseTo(share, 8)
    }),
    { numRuns: 30 },
  )
})
