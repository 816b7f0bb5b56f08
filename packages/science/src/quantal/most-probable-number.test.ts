import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { type MostProbableNumberInput, mostProbableNumber } from './most-probable-number.ts'
import { type Wells, wellsLogLikelihood } from './wells.ts'

const row = fc
  .record({
    volumeMl: fc.double({ min: 1e-4, max: 1e3, noNaN: true }),
    inoculated: fc.integer({ min: 1, max: 60 }),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ share, ...rest }) => ({ ...rest, positive: Math.round(share * rest.inoculated) }))
const designs = fc.array(row, { minLength: 1, maxLength: 5 })
const solve = (wells: Wells[], more: Partial<MostProbableNumberInput> = {}) =>
  mostProbableNumber({ wells, information: 'observed', level: 0.95, ...more })
const inner = (wells: Wells[]) =>
  wells.some(({ positive }) => positive > 0) && wells.some(({ positive, inoculated }) => positive < inoculated)

test('the estimate is the top of the likelihood, found slowly by a scan', () => {
  fc.assert(
    fc.property(designs.filter(inner), (wells) => {
      const { mpnPerMl = 0 } = solve(wells)
      const top = wellsLogLikelihood(wells, mpnPerMl)
      const around = Array.from({ length: 200 }, (_, i) => wellsLogLikelihood(wells, mpnPerMl * 1.05 ** (i - 100)))
      expect(Math.max(...around)).toBeLessThanOrEqual(top + 1e-9 * Math.abs(top))
    }),
  )
})

test('another unit of volume, another order and split rows change nothing but the unit', () => {
  fc.assert(
    fc.property(designs, (wells) => {
      const one = solve(wells)
      const litres = solve(wells.map((each) => ({ ...each, volumeMl: each.volumeMl * 1000 })).toReversed())
      const split = solve(
        wells.flatMap(({ volumeMl, inoculated, positive }) => [
          { volumeMl, inoculated: positive, positive },
          { volumeMl, inoculated: inoculated - positive, positive: 0 },
        ]),
      )
      for (const key of ['profileLikelihood', 'cox'] as const)
        for (const side of ['lower', 'upper'] as const) {
          const limit = one.interval[key][side] ?? 0
          expect(Math.abs((litres.interval[key][side] ?? 0) * 1000 - limit)).toBeLessThanOrEqual(1e-8 * limit)
          expect(Math.abs((split.interval[key][side] ?? 0) - limit)).toBeLessThanOrEqual(1e-8 * limit)
        }
      expect(litres.rarityIndex).toBeCloseTo(one.rarityIndex, 7)
    }),
  )
})

test('one more positive well gives a higher number, and every interval holds the estimate', () => {
  fc.assert(
    fc.property(designs.filter(inner), (wells) => {
      const got = solve(wells)
      const { mpnPerMl = 0, interval } = got
      for (const { lower = 0, upper = Number.POSITIVE_INFINITY } of Object.values(interval)) {
        expect(lower).toBeLessThan(mpnPerMl)
        expect(upper).toBeGreaterThan(mpnPerMl)
      }
      expect(got.rarityIndex).toBeLessThanOrEqual(1)
      const at = wells.findIndex(({ positive, inoculated }) => positive < inoculated)
      const more = solve(wells.map((each, i) => (i === at ? { ...each, positive: each.positive + 1 } : each)))
      expect(more.mpnPerMl ?? Number.POSITIVE_INFINITY).toBeGreaterThan(mpnPerMl)
    }),
  )
})

test('a million wells of very different volumes are solved', () => {
  const wells = [
    { volumeMl: 1e3, inoculated: 1_000_000, positive: 999_999 },
    { volumeMl: 1, inoculated: 1_000_000, positive: 500_000 },
    { volumeMl: 1e-9, inoculated: 1_000_000, positive: 0 },
  ]
  const { mpnPerMl = 0, rarityIndex } = solve(wells)
  expect(mpnPerMl).toBeCloseTo(Math.LN2, 2)
  expect(rarityIndex).toBeLessThan(1e-100)
})

test('wells that cannot be are refused with the field', () => {
  const run = (wells: unknown) => runCalculation({ id: 'most-probable-number', input: { wells } })
  expect(run([{ volumeMl: 1, inoculated: 3, positive: 4 }])).toEqual({
    issues: [{ path: 'wells.0.positive', expected: 'at most the inoculated, 3', received: '4' }],
  })
  expect(run([{ volumeMl: 1, inoculated: 0, positive: 0 }])).toMatchObject({ issues: [{ path: 'wells' }] })
  expect(run([{ volumeMl: 0, inoculated: 1, positive: 0 }])).toMatchObject({ issues: [{ path: 'wells.0.volumeMl' }] })
  expect(run([])).toMatchObject({ issues: [{ path: 'wells' }] })
  expect(() => solve([{ volumeMl: 1, inoculated: 1, positive: 2 }])).toThrow(RangeError)
})

test('an odd outcome is told of first, the odder the stronger', () => {
  const first = (...positive: number[]) => {
    const wells = positive.map((each, i) => ({ volumeMl: 0.1 ** (i + 1), inoculated: 10, positive: each }))
    const answer = runCalculation({ id: 'most-probable-number', input: { wells } })
    return 'cautions' in answer ? answer.cautions[0] : ''
  }
  expect(first(5, 3, 0)).not.toContain('rarity')
  expect(first(5, 2, 1)).toMatch(/^The outcome is odd: its rarity index is 0\.0\d+, below 0\.05/)
  expect(first(0, 0, 10)).toMatch(/^The outcome is very odd: .* below 0\.01/)
})
