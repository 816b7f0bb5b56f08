import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { twoByTwo } from './two-by-two.ts'

const count = fc.nat({ max: 40 })
const tables = fc
  .record({ exposedCases: count, exposedWell: count, unexposedCases: count, unexposedWell: count })
  .filter(
    ({ exposedCases: a, exposedWell: b, unexposedCases: c, unexposedWell: d }) =>
      (a + b) * (c + d) * (a + c) * (b + d) > 0,
  )
const level = 0.95

test('rows changed places give the odds ratio’s reciprocal and the same p values', () => {
  fc.assert(
    fc.property(tables, (table) => {
      const one = twoByTwo({ ...table, level })
      const { exposedCases, exposedWell, unexposedCases, unexposedWell } = table
      const other = twoByTwo({
        exposedCases: unexposedCases,
        exposedWell: unexposedWell,
        unexposedCases: exposedCases,
        unexposedWell: exposedWell,
        level,
      })
      expect(other.fisherTwoSided).toBeCloseTo(one.fisherTwoSided, 10)
      expect(other.midP).toBeCloseTo(one.midP, 10)
      const { lower = 0 } = other.oddsRatio.interval
      // Without an upper limit, 1 over it is 0.
      const { upper = Number.POSITIVE_INFINITY } = one.oddsRatio.interval
      expect(lower).toBeCloseTo(1 / upper, 9)
    }),
  )
})

test('cases and well changed for exposed and unexposed leave the odds ratio alone', () => {
  fc.assert(
    fc.property(tables, (table) => {
      const turned = { ...table, exposedWell: table.unexposedCases, unexposedCases: table.exposedWell }
      const [one, other] = [twoByTwo({ ...table, level }), twoByTwo({ ...turned, level })]
      expect(other.oddsRatio.sample).toBe(one.oddsRatio.sample)
      expect(other.midP).toBeCloseTo(one.midP, 10)
    }),
  )
})

test('exact limits contain mid-p limits', () => {
  fc.assert(
    fc.property(tables, (table) => {
      const { interval, midPInterval } = twoByTwo({ ...table, level }).oddsRatio
      expect(interval.lower).toBeLessThanOrEqual((midPInterval.lower ?? 0) * (1 + 1e-9))
      expect(interval.upper ?? Number.POSITIVE_INFINITY).toBeGreaterThanOrEqual((midPInterval.upper ?? 0) * (1 - 1e-9))
    }),
  )
})

test('an empty row is refused', () => {
  expect(() => twoByTwo({ exposedCases: 0, exposedWell: 0, unexposedCases: 1, unexposedWell: 1, level })).toThrow(
    RangeError,
  )
})
