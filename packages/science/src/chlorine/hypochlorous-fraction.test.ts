import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { hypochlorousFraction, morrisPKa } from './hypochlorous-fraction.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('a higher pH and warmer water leave less acid; the share lies within the published range', () => {
  fc.assert(
    fc.property(real(3, 11), real(0, 50), real(0.1, 5), (pH, temperatureC, more) => {
      const got = hypochlorousFraction({ pH, temperatureC })
      expect(hypochlorousFraction({ pH: pH + more, temperatureC }).fractionHocl).toBeLessThan(got.fractionHocl)
      expect(hypochlorousFraction({ pH, temperatureC: temperatureC + more }).fractionHocl).toBeLessThan(
        got.fractionHocl,
      )
      expect(got.fractionRange.lower).toBeLessThanOrEqual(got.fractionHocl)
      expect(got.fractionRange.upper).toBeGreaterThanOrEqual(got.fractionHocl)
    }),
  )
})

test('at its pKa half is acid, and as far above as below the shares add up to one', () => {
  fc.assert(
    fc.property(real(0, 60), real(0, 6), (temperatureC, off) => {
      const pKa = morrisPKa(temperatureC)
      const [above, below] = [pKa + off, pKa - off].map((pH) => hypochlorousFraction({ pH, temperatureC }).fractionHocl)
      expect((above ?? 0) + (below ?? 0)).toBeCloseTo(1, 12)
    }),
  )
})

test('the ends of the scale are all acid and next to none; beyond the data it says so', () => {
  expect(hypochlorousFraction({ pH: 0, temperatureC: 20 }).fractionHocl).toBeCloseTo(1, 7)
  expect(hypochlorousFraction({ pH: 14, temperatureC: 20 }).fractionHocl).toBeLessThan(1e-6)
  expect(hypochlorousFraction({ pH: 7, temperatureC: 35 }).basis).not.toContain('beyond')
  expect(hypochlorousFraction({ pH: 7, temperatureC: 36 }).basis).toContain('beyond')
  expect(() => morrisPKa(61)).toThrow(RangeError)
})
