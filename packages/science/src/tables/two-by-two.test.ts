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

test('a table far below what chance gives is answered like the one far above it', () => {
  for (const [a, b, c, d] of [
    [2000, 8000, 6000, 4000],
    [500_000, 1_000_000, 1_000_000, 700_000],
    [0, 1_000_000, 1_000_000, 0],
  ] as const) {
    const low = twoByTwo({ exposedCases: a, exposedWell: b, unexposedCases: c, unexposedWell: d, level })
    const high = twoByTwo({ exposedCases: c, exposedWell: d, unexposedCases: a, unexposedWell: b, level })
    expect([low.midP, low.fisherTwoSided]).toEqual([high.midP, high.fisherTwoSided])
    expect((low.oddsRatio.interval.upper ?? 0) * (high.oddsRatio.interval.lower ?? 0)).toBeCloseTo(1, 9)
  }
})

test('an empty row is refused', () => {
  expect(() => twoByTwo({ exposedCases: 0, exposedWell: 0, unexposedCases: 1, unexposedWell: 1, level })).toThrow(
    RangeError,
  )
})
