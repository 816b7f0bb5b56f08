import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { joinedConcentration } from './joined-concentration.ts'

const plate = fc.record({
  colonies: fc.integer({ min: 1, max: 300 }),
  amount: fc.double({ min: 1e-3, max: 100, noNaN: true }),
})
const designs = fc.record({
  colonies: fc.nat({ max: 300 }),
  amount: fc.double({ min: 1e-3, max: 100, noNaN: true }),
  atLeast: fc.array(plate, { minLength: 0, maxLength: 4 }),
})

/** ln P(N ≥ c) by adding up the terms below c: slow, and plain. */
function logAtLeast(c: number, mean: number): number {
  let [term, below] = [Math.exp(-mean), 0]
  for (let k = 0; k < c; k++) {
    below += term
    term *= mean / (k + 1)
  }
  return Math.log(Math.max(1 - below, 1e-300))
}

test('nothing near is likelier, with chances added up term by term', () => {
  fc.assert(
    fc.property(designs, (design) => {
      const { estimate } = joinedConcentration({ ...design, level: 0.95 })
      fc.pre(estimate > 0)
      const at = (x: number) =>
        design.atLeast.reduce(
          (sum, { colonies, amount }) => sum + logAtLeast(colonies, x * amount),
          design.colonies * Math.log(x) - x * design.amount,
        )
      const terms = design.atLeast.map(({ colonies, amount }) => logAtLeast(colonies, estimate * amount))
      // Where a tail is too small for its terms to show, adding them up proves nothing.
      fc.pre(terms.every((term) => term > -20) && design.atLeast.every(({ amount }) => estimate * amount < 600))
      for (const factor of [0.9, 0.99, 1.01, 1.1]) expect(at(estimate * factor)).toBeLessThan(at(estimate) + 1e-6)
    }),
  )
})

test('another unit of amount, and limits around the estimate', () => {
  fc.assert(
    fc.property(designs, (design) => {
      const one = joinedConcentration({ ...design, level: 0.95 })
      const other = joinedConcentration({
        colonies: design.colonies,
        amount: design.amount * 1000,
        atLeast: design.atLeast.map(({ colonies, amount }) => ({ colonies, amount: amount * 1000 })),
        level: 0.95,
      })
      expect(one.lower).toBeLessThanOrEqual(one.estimate)
      expect(one.upper).toBeGreaterThan(one.estimate)
      for (const key of ['estimate', 'lower', 'upper'] as const)
        expect(Math.abs(other[key] * 1000 - one[key])).toBeLessThanOrEqual(1e-8 * one[key])
    }),
  )
})
