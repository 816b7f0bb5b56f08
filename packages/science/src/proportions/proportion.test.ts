import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type ProportionInput, proportion } from './proportion.ts'

const inputs: fc.Arbitrary<ProportionInput> = fc
  .tuple(
    fc.nat({ max: 5000 }),
    fc.integer({ min: 1, max: 5000 }),
    fc.constantFrom('wilson' as const, 'exact' as const, 'jeffreys' as const),
    fc.double({ min: 0.01, max: 0.999, noNaN: true }),
  )
  .map(([x, total, method, level]) => ({ positive: Math.min(x, total), total, method, level }))

test('the interval lies within 0 and 1, holds the estimate, and mirrors for the negatives', () => {
  fc.assert(
    fc.property(inputs, (input) => {
      const { estimate, interval } = proportion(input)
      expect(0 <= interval.lower && interval.upper <= 1).toBe(true)
      // Jeffreys limits at low levels may leave the raw share out; it is no score.
      expect(
        input.method === 'jeffreys' || (interval.lower <= estimate + 1e-12 && estimate <= interval.upper + 1e-12),
      ).toBe(true)
      const mirrored = proportion({ ...input, positive: input.total - input.positive }).interval
      expect(mirrored.lower).toBeCloseTo(1 - interval.upper, 10)
      expect(mirrored.upper).toBeCloseTo(1 - interval.lower, 10)
    }),
  )
})

test('more confidence is a wider interval', () => {
  fc.assert(
    fc.property(inputs, (input) => {
      const wide = proportion(input).interval
      const narrow = proportion({ ...input, level: input.level / 2 }).interval
      expect(narrow.lower).toBeGreaterThanOrEqual(wide.lower - 1e-12)
      expect(narrow.upper).toBeLessThanOrEqual(wide.upper + 1e-12)
    }),
  )
})

test('one more positive moves both limits up', () => {
  fc.assert(
    fc.property(inputs, (input) => {
      fc.pre(input.positive < input.total)
      const less = proportion(input).interval
      const more = proportion({ ...input, positive: input.positive + 1 }).interval
      expect(more.lower).toBeGreaterThan(less.lower - 1e-12)
      expect(more.upper).toBeGreaterThan(less.upper - 1e-12)
    }),
  )
})

test('exact limits contain those of Jeffreys', () => {
  fc.assert(
    fc.property(inputs, (input) => {
      const exact = proportion({ ...input, method: 'exact' }).interval
      const jeffreys = proportion({ ...input, method: 'jeffreys' }).interval
      expect(exact.lower).toBeLessThanOrEqual(jeffreys.lower + 1e-12)
      expect(exact.upper).toBeGreaterThanOrEqual(jeffreys.upper - 1e-12)
    }),
  )
})

test('counts that make no share are refused', () => {
  const input = { total: 10, method: 'exact' as const, level: 0.95 }
  expect(() => proportion({ ...input, positive: 11 })).toThrow(RangeError)
  expect(() => proportion({ ...input, positive: 0, total: 0 })).toThrow(RangeError)
})
