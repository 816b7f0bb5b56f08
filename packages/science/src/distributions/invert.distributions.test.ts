import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { betaCdf, betaQuantile } from './beta.ts'
import { gammaCdf, gammaQuantile } from './gamma.ts'
import { invert } from './invert.ts'
import { twoSidedNormalQuantile } from './normal.ts'
import { poissonLimits } from './poisson-limits.ts'
import { devianceTerm, stirlingError } from './stirling.ts'

const shape = fc.double({ min: 0.5, max: 1e6, noNaN: true })
const probability = fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true })

/** Rounding of what is asked and of the cumulative probability together. */
const HAIR = 1e-12

test('the beta distribution inverts itself', () => {
  fc.assert(
    fc.property(shape, shape, probability, (a, b, p) => {
      // The quantile is the nearest number there is: a hair to either side the probability is passed.
      const x = betaQuantile(p, { a, b })
      expect(betaCdf(x * (1 - HAIR), { a, b })).toBeLessThan(p + HAIR)
      expect(betaCdf(x * (1 + HAIR), { a, b })).toBeGreaterThan(p - HAIR)
    }),
    { numRuns: 200 },
  )
})

test('the beta distribution mirrors when its shapes are swapped', () => {
  fc.assert(
    fc.property(shape, shape, fc.nat({ max: 2 ** 20 }), (a, b, step) => {
      // A whole number of steps, so that 1 − x is exact.
      const x = step / 2 ** 20
      expect(betaCdf(x, { a, b }) + betaCdf(1 - x, { a: b, b: a })).toBeCloseTo(1, 11)
    }),
  )
})

test('the beta distribution of whole shapes is a binomial tail', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 30 }),
      fc.integer({ min: 0, max: 30 }),
      fc.double({ min: 0.001, max: 0.999, noNaN: true }),
      (x, more, p) => {
        const n = x + more
        let tail = 0
        for (let k = x; k <= n; k++) tail += choose(n, k) * p ** k * (1 - p) ** (n - k)
        expect(betaCdf(p, { a: x, b: more + 1 })).toBeCloseTo(tail, 12)
      },
    ),
  )
})

test('the gamma distribution inverts itself in either tail', () => {
  fc.assert(
    fc.property(shape, probability, fc.constantFrom('lower' as const, 'upper' as const), (a, p, tail) => {
      const x = gammaQuantile(p, { shape: a, tail })
      const sides = [1 - HAIR, 1 + HAIR]
        .map((factor) => gammaCdf(x * factor, { shape: a, tail }))
        .sort((one, other) => one - other)
      expect(sides[0]).toBeLessThan(p + HAIR)
      expect(sides[1]).toBeGreaterThan(p - HAIR)
    }),
    { numRuns: 200 },
  )
})

test('the gamma distribution of a whole shape is a Poisson tail', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 60 }), fc.double({ min: 0.01, max: 90, noNaN: true }), (count, mean) => {
      let term = Math.exp(-mean)
      let fewer = term
      for (let k = 1; k < count; k++) fewer += term *= mean / k
      expect(gammaCdf(mean, { shape: count, tail: 'upper' })).toBeCloseTo(fewer, 12)
    }),
  )
})

test('limits of a count hold the count and widen with the level', () => {
  fc.assert(
    fc.property(fc.nat({ max: 100_000 }), probability, (count, level) => {
      const narrow = poissonLimits(count, level / 2)
      const wide = poissonLimits(count, level)
      expect(wide.lower).toBeLessThanOrEqual(narrow.lower)
      expect(wide.upper).toBeGreaterThanOrEqual(narrow.upper)
      expect(level < 0.5 || (wide.lower <= count && count <= wide.upper)).toBe(true)
    }),
  )
})

test('Stirling’s error falls as 1/12n and joins neighbours', () => {
  expect(stirlingError(1e9)).toBeCloseTo(1 / 12e9, 20)
  for (const n of [0.5, 3, 15.999, 16, 40]) {
    expect(stirlingError(n) - stirlingError(n + 1)).toBeCloseTo((n + 0.5) * Math.log1p(1 / n) - 1, 14)
  }
})

test('the deviance term is smooth where its formula changes', () => {
  const direct = (x: number, m: number) => x * Math.log(x / m) + m - x
  for (const x of [1.1, 1.2, 1.2222, 1.223, 1.3]) expect(devianceTerm(x, 1)).toBeCloseTo(direct(x, 1), 14)
})

test('special values', () => {
  expect(betaCdf(0, { a: 1, b: 1 })).toBe(0)
  expect(betaCdf(1, { a: 1, b: 1 })).toBe(1)
  expect(betaQuantile(0, { a: 2, b: 3 })).toBe(0)
  expect(betaQuantile(1, { a: 2, b: 3 })).toBe(1)
  expect(gammaCdf(0, { shape: 2, tail: 'upper' })).toBe(1)
  expect(() => betaCdf(0.5, { a: 0, b: 1 })).toThrow(RangeError)
  expect(() => gammaCdf(1, { shape: Number.NaN })).toThrow(RangeError)
  expect(twoSidedNormalQuantile(0.99)).toBeCloseTo(2.5758293035489004, 13)
  expect(invert({ probability: 99, lower: 0, upper: 3, start: 1, cdf: (x) => x, density: () => 1 })).toBe(3)
})

function choose(n: number, k: number): number {
  let value = 1
  for (let i = 0; i < k; i++) value = (value * (n - i)) / (i + 1)
  return value
}
