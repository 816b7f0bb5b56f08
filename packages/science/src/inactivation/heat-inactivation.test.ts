import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { heatInactivation } from './heat-inactivation.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('hotter kills faster at every place of the range, and the middle lies between the ends', () => {
  fc.assert(
    fc.property(real(45, 79), real(0.01, 1), (temperatureC, more) => {
      const now = heatInactivation({ temperatureC, minutes: 1 }).decimalReductionMinutes
      const hotter = heatInactivation({ temperatureC: temperatureC + more, minutes: 1 }).decimalReductionMinutes
      expect(hotter.central).toBeLessThan(now.central)
      expect(hotter.lower).toBeLessThan(now.lower)
      expect(hotter.upper).toBeLessThan(now.upper)
      expect(now.lower).toBeLessThanOrEqual(now.central)
      expect(now.central).toBeLessThanOrEqual(now.upper)
    }),
  )
})

test('the reduction grows with time: one power of ten for each decimal reduction time', () => {
  fc.assert(
    fc.property(real(45, 80), real(0, 100), (temperatureC, times) => {
      const { decimalReductionMinutes: d } = heatInactivation({ temperatureC, minutes: 1 })
      const { log10Reduction } = heatInactivation({ temperatureC, minutes: times * d.central })
      expect(log10Reduction.central).toBeCloseTo(times, 9)
      expect(log10Reduction.lower).toBeLessThanOrEqual(log10Reduction.upper)
    }),
  )
})

test('no time reduces nothing; where it grows or nothing was tested it is refused', () => {
  expect(heatInactivation({ temperatureC: 60, minutes: 0 }).log10Reduction).toEqual({ central: 0, lower: 0, upper: 0 })
  const refused = (temperatureC: number) =>
    runCalculation({ id: 'heat-inactivation', input: { temperatureC, minutes: 1 } })
  expect(refused(44)).toEqual({ issues: [{ path: 'temperatureC', expected: 'at least 45', received: '44' }] })
  expect(refused(81)).toMatchObject({ issues: [{ path: 'temperatureC' }] })
})

test('it says how many studies measured there and beyond what nothing was', () => {
  const at = (temperatureC: number) => heatInactivation({ temperatureC, minutes: 30 }).basis
  expect(at(60)).toContain('6 sets from 5 sources, 5 of them measured')
  expect(at(80)).toContain('1 of them measured')
  expect(at(70)).toContain('Beyond 8 log10 nothing was measured')
})
