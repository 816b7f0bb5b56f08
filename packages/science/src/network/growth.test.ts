import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { cardinalRate } from './cardinal-temperature.ts'
import { favourOf, growthIndexOf, growthTemperatures, residualDamping } from './growth.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const places = fc.record({ meanGrowth: real(0, 1), meanFavour: real(0, 1), longestStagnationHours: real(0, 24) })

test('the index lies between 0 and 1 and is only raised by each of its three', () => {
  fc.assert(
    fc.property(places, real(0, 1), (place, more) => {
      const index = growthIndexOf(place)
      expect(index).toBeGreaterThanOrEqual(0)
      expect(index).toBeLessThanOrEqual(1)
      const least = index - 1e-12
      expect(growthIndexOf({ ...place, meanGrowth: Math.min(1, place.meanGrowth + more) })).toBeGreaterThanOrEqual(
        least,
      )
      expect(growthIndexOf({ ...place, meanFavour: Math.min(1, place.meanFavour + more) })).toBeGreaterThanOrEqual(
        least,
      )
      const stood = { ...place, longestStagnationHours: place.longestStagnationHours + 24 * more }
      expect(growthIndexOf(stood)).toBeGreaterThanOrEqual(least)
    }),
  )
})

test('nothing carried and nothing favoured is 0; everything is 1; standing alone is nothing', () => {
  expect(growthIndexOf({ meanGrowth: 0, meanFavour: 0, longestStagnationHours: 24 })).toBe(0)
  expect(growthIndexOf({ meanGrowth: 1, meanFavour: 0, longestStagnationHours: 0 })).toBe(1)
  expect(growthIndexOf({ meanGrowth: 0, meanFavour: 1, longestStagnationHours: Number.POSITIVE_INFINITY })).toBe(1)
})

test.each([
  { meanGrowth: -0.1, meanFavour: 0, longestStagnationHours: 0 },
  { meanGrowth: 0, meanFavour: 1.1, longestStagnationHours: 0 },
  { meanGrowth: 0, meanFavour: Number.NaN, longestStagnationHours: 0 },
  { meanGrowth: 0, meanFavour: 0, longestStagnationHours: -1 },
])('%o is refused', (place) => {
  expect(() => growthIndexOf(place)).toThrow(RangeError)
})

test('favour is the curve times the damping, and the wide set grants more of cold and heat', () => {
  fc.assert(
    fc.property(real(0, 70), real(0, 4), (temperatureC, residualMgPerL) => {
      const usual = cardinalRate(temperatureC, growthTemperatures())
      expect(favourOf({ temperatureC, residualMgPerL })).toBeCloseTo(usual * residualDamping(residualMgPerL), 12)
      expect(usual).toBeGreaterThanOrEqual(0)
      expect(usual).toBeLessThanOrEqual(1)
      expect(cardinalRate(temperatureC, growthTemperatures('wide'))).toBeGreaterThanOrEqual(usual - 1e-12)
    }),
  )
})

test.each([
  { minimumC: 20, optimumC: 30, maximumC: 48 },
  { minimumC: 40, optimumC: 37, maximumC: 48 },
  { minimumC: 20, optimumC: 50, maximumC: 48 },
])('cardinal temperatures of %o are refused', (at) => {
  expect(() => cardinalRate(30, at)).toThrow(RangeError)
})
