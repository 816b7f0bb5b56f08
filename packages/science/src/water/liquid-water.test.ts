import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  meanHeatCapacityJPerKgK,
  waterDensityKgPerM3,
  waterHeatCapacityJPerKgK,
  waterViscosityMPaS,
} from './liquid-water.ts'

const temperature = fc.double({ min: 0, max: 99, noNaN: true })

test('from 4 °C up, warmer water is lighter; everywhere it is thinner', () => {
  fc.assert(
    fc.property(temperature, fc.double({ min: 0.01, max: 1, noNaN: true }), (from, step) => {
      const lighter = waterDensityKgPerM3(from + step) < waterDensityKgPerM3(from)
      expect(lighter || from < 4).toBe(true)
      expect(waterViscosityMPaS(from + step)).toBeLessThan(waterViscosityMPaS(from))
    }),
  )
})

test('water is heaviest at 4 °C and takes least heat near 36 °C', () => {
  const tenths = Array.from({ length: 1001 }, (_, i) => i / 10)
  const at = (of: (t: number) => number, pick: (...all: number[]) => number) =>
    tenths.find((t) => of(t) === pick(...tenths.map(of)))
  expect(at(waterDensityKgPerM3, Math.max)).toBeCloseTo(4, 0)
  expect(Math.abs((at(waterHeatCapacityJPerKgK, Math.min) ?? 0) - 36)).toBeLessThan(2)
})

test('ice, steam and nonsense have no such properties', () => {
  for (const each of [-0.001, 100.001, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(() => waterDensityKgPerM3(each)).toThrow(RangeError)
    expect(() => waterHeatCapacityJPerKgK(each)).toThrow(RangeError)
    expect(() => waterViscosityMPaS(each)).toThrow(RangeError)
  }
})

test('the mean heat capacity does not mind the order, and heat taken up in two steps is that of one', () => {
  fc.assert(
    fc.property(temperature, temperature, temperature, (a, b, c) => {
      const heat = (fromC: number, toC: number) => meanHeatCapacityJPerKgK({ fromC, toC }) * (toC - fromC)
      expect(heat(a, b)).toBeCloseTo(-heat(b, a), 6)
      // 400 kJ, to a ten-millionth.
      expect(Math.abs(heat(a, b) + heat(b, c) - heat(a, c))).toBeLessThan(0.1)
    }),
  )
})

test('the mean heat capacity is the mean of heat capacities', () => {
  fc.assert(
    fc.property(temperature, temperature, (fromC, toC) => {
      const count = 2000
      const pieces = Array.from({ length: count }, (_, i) => fromC + ((i + 0.5) / count) * (toC - fromC))
      const mean = pieces.reduce((total, each) => total + waterHeatCapacityJPerKgK(each), 0) / count
      // The midpoint rule of 2000 pieces: a thousandth.
      expect(meanHeatCapacityJPerKgK({ fromC, toC })).toBeCloseTo(mean, 3)
    }),
  )
})
