import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { fade } from './fade.ts'

test('e to the minus x to a part in ten million, for any x up to where it is as good as none', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 39.99, noNaN: true }), (x) => {
      expect(Math.abs(fade(x) / Math.exp(-x) - 1)).toBeLessThan(1e-7)
    }),
  )
})

test.each([40, 1e9, Number.POSITIVE_INFINITY])('nothing is left at %d', (x) => {
  expect(fade(x)).toBe(0)
})
