import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { LogTally } from './log-tally.ts'

test('quantiles are those of the sorted values to half a thousandth', () => {
  const value = fc.double({ min: 1e-60, max: 1e30, noNaN: true })
  fc.assert(
    fc.property(
      fc.array(value, { minLength: 1, maxLength: 60 }),
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      (values, share) => {
        const tally = new LogTally()
        for (const each of values) tally.add(Math.log(each))
        const sorted = values.toSorted((a, b) => a - b)
        const want = sorted[Math.ceil(share * values.length - 1e-12) - 1] ?? 0
        expect(Math.abs(tally.quantile(share) / want - 1)).toBeLessThan(5.1e-4)
      },
    ),
  )
})

test('several shares are told in one walk as one by one', () => {
  const tally = new LogTally()
  for (let i = 1; i <= 1000; i++) tally.add(Math.log(i))
  const shares = [0, 0.05, 0.05, 0.5, 1]
  expect(tally.quantiles(shares)).toEqual(shares.map((share) => tally.quantile(share)))
})

test('zeros are counted, and what is too small or too large for the cells stays a number', () => {
  const tally = new LogTally()
  for (const logarithm of [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, -1000, 5, 2000]) tally.add(logarithm)
  expect(tally.count).toBe(5)
  expect([tally.quantile(0.2), tally.quantile(0.6)]).toEqual([0, 0])
  expect(Math.log(tally.quantile(0.8))).toBeCloseTo(5, 2)
  expect(tally.quantile(1)).toBeLessThan(1e35)
  expect(new LogTally().quantile(0.5)).toBe(0)
})
