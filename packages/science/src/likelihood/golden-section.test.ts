import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { highestBetween } from './golden-section.ts'

test('the top of a parabola is found to half the digits, wherever it lies between the ends', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -100, max: 100, noNaN: true }),
      fc.double({ min: 0.1, max: 50, noNaN: true }),
      (top, side) => {
        const got = highestBetween((x) => -((x - top) ** 2), {
          from: top - side,
          to: top + 60 - side,
          agreement: 1e-12,
        })
        expect(Math.abs(got.at - top)).toBeLessThan(1e-7)
        expect(got.value).toBe(-((got.at - top) ** 2))
      },
    ),
  )
})

test('where it only rises the top is at the end, and no agreement asks for too much', () => {
  expect(highestBetween((x) => x, { from: 2, to: 3, agreement: 1e-9 }).at).toBeCloseTo(3, 8)
  expect(highestBetween((x) => -x, { from: 2, to: 3, agreement: 0 }).at).toBeCloseTo(2, 12)
})
