import { expect, test } from 'vitest'
import { log10Apart, log10SpreadOfCounts } from './count-spread.ts'

test('one colony behind each count leaves more than half a power of ten', () => {
  expect(log10SpreadOfCounts({ a: 1, b: 1 })).toBeCloseTo(Math.SQRT2 / Math.LN10, 14)
})

test('the spread shrinks with the root of the colonies and does not mind the order', () => {
  expect(log10SpreadOfCounts({ a: 400, b: 400 })).toBeCloseTo(log10SpreadOfCounts({ a: 100, b: 100 }) / 2, 14)
  expect(log10SpreadOfCounts({ a: 3, b: 80 })).toBe(log10SpreadOfCounts({ a: 80, b: 3 }))
})

test('two values lie as far apart one way as the other', () => {
  expect(log10Apart({ a: 20, b: 2000 })).toBeCloseTo(2, 14)
  expect(log10Apart({ a: 2000, b: 20 })).toBeCloseTo(2, 14)
  expect(log10Apart({ a: 7, b: 7 })).toBe(0)
})

test('what is not counted cannot be compared', () => {
  expect(() => log10SpreadOfCounts({ a: 0, b: 3 })).toThrow(RangeError)
  expect(() => log10Apart({ a: 3, b: Number.NaN })).toThrow(RangeError)
})
