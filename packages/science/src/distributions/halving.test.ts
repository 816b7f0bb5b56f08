import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { placeWhereItEnds } from './halving.ts'

test('any place is found to the last digit, from either side', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.double({ min: 1, max: 1e6, noNaN: true }),
      (place, wide) => {
        const within = { from: place - wide, to: place + wide / 3 }
        // sixteen digits of the larger of the place and the width
        const last = 4 * Number.EPSILON * (Math.abs(place) + wide)
        expect(Math.abs(placeWhereItEnds((x) => x < place, within) - place)).toBeLessThanOrEqual(last)
      },
    ),
  )
})

test('what holds throughout ends at the end, what holds nowhere at the start', () => {
  expect(placeWhereItEnds(() => true, { from: 2, to: 5 })).toBe(5)
  expect(placeWhereItEnds(() => false, { from: 2, to: 5 })).toBeCloseTo(2, 14)
  expect(placeWhereItEnds(() => false, { from: 0, to: 1 })).toBeLessThan(1e-20)
})
