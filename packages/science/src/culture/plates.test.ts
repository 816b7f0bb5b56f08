import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { plateCount } from './plate-count.ts'
import type { Plate } from './plates.ts'

const plate = fc.record({
  colonies: fc.integer({ min: 1, max: 400 }),
  platedMl: fc.double({ min: 0.01, max: 100, noNaN: true }),
  concentrationFactor: fc.double({ min: 0.01, max: 200, noNaN: true }),
  treatmentFactor: fc.double({ min: 0.1, max: 1, noNaN: true }),
})
const plates = fc.array(plate, { minLength: 1, maxLength: 5 })
const count = (given: Plate[]) => plateCount({ plates: given, level: 0.95 })
const one = (odd: Partial<Plate>): Plate => ({ colonies: 0, platedMl: 1, concentrationFactor: 1, ...odd })

test('a plate others overgrew changes nothing, and is counted as such', () => {
  fc.assert(
    fc.property(plates, (given) => {
      const lost = one({ overgrown: 'by-others' })
      const { plates: told, ...rest } = count([...given, lost])
      const { plates: before, ...without } = count(given)
      expect(rest).toEqual(without)
      expect(told).toEqual({ ...before, unreadable: 1 })
    }),
  )
})

test('a plate overgrown by Legionella can only raise the result, and never says not detected', () => {
  fc.assert(
    fc.property(plates, plate, (given, crowded) => {
      const before = count(given)
      const after = count([...given, { ...crowded, overgrown: 'by-legionella' }])
      expect(after.cfuPerL).toBeGreaterThanOrEqual(before.cfuPerL * (1 - 1e-12))
      expect(after.qualifier).toBe('estimated')
    }),
  )
})

test('treatments: the highest is reported, whatever the order; alike under one name is pooled as without', () => {
  fc.assert(
    fc.property(plates, plates, (heat, acid) => {
      const named = [
        ...heat.map((each) => ({ ...each, treatment: 'heat' as const })),
        ...acid.map((each) => ({ ...each, treatment: 'acid' as const })),
      ]
      const got = count(named)
      expect(got.cfuPerL).toBe(Math.max(count(heat).cfuPerL, count(acid).cfuPerL))
      expect(got.byTreatment).toHaveLength(2)
      // sums in another order differ in the last digits
      const other = count(named.toReversed()).cfuPerL
      expect(Math.abs(other - got.cfuPerL)).toBeLessThanOrEqual(1e-12 * got.cfuPerL)
    }),
  )
})

test('the factors multiply: twice the volume, twice the concentrating or twice the share after treatment is half the result', () => {
  fc.assert(
    fc.property(plate, (given) => {
      const { cfuPerL, detectionLimitCfuPerL } = count([{ ...given, treatmentFactor: given.treatmentFactor / 2 }])
      for (const odd of [{ platedMl: given.platedMl / 2 }, { concentrationFactor: given.concentrationFactor / 2 }]) {
        const other = count([{ ...given, ...odd }])
        expect(other.cfuPerL / cfuPerL).toBeCloseTo(1, 12)
        expect(other.detectionLimitCfuPerL / detectionLimitCfuPerL).toBeCloseTo(1, 12)
      }
    }),
  )
})

test('too many to count and nothing else is at least; with a count beside it, an estimate', () => {
  const crowded = one({ colonies: 300, overgrown: 'by-legionella' })
  const alone = count([crowded, one({ colonies: 20, platedMl: 10, overgrown: 'by-legionella' })])
  expect(alone).toMatchObject({ cfuPerL: 300_000, qualifier: 'greater-than' })
  expect(alone.interval.upper).toBeUndefined()
  expect(alone.interval.lower).toBeLessThan(300_000)
  const none = count([crowded, one({ colonies: 0, platedMl: 0.01 })])
  expect(none).toMatchObject({ qualifier: 'estimated' })
  expect(none.cfuPerL).toBeGreaterThan(290_000)
  expect(none.detectionLimitCfuPerL).toBeCloseTo(100_000, 6)
})

test('few picked leave more doubt on crowded plates too', () => {
  const given = [one({ colonies: 300, overgrown: 'by-legionella' }), one({ colonies: 40, platedMl: 0.1 })]
  const [all, few] = [count(given), count(given.map((each) => ({ ...each, confirmedOf: 5, confirmed: 5 })))]
  expect(few.cfuPerL).toBeCloseTo(all.cfuPerL, 6)
  expect(few.interval.lower).toBeLessThan(all.interval.lower)
})

test('a crowded plate that was counted all the same is an estimate', () => {
  expect(count([one({ colonies: 300 })]).qualifier).toBe('counted')
  expect(count([one({ colonies: 301 })]).qualifier).toBe('estimated')
})

test.each([
  ['a count on a plate others overgrew', [one({ colonies: 3, overgrown: 'by-others' }), one({})], 'plates.0.colonies'],
  ['too many without a least number', [one({ overgrown: 'by-legionella' })], 'plates.0.colonies'],
  ['nothing readable', [one({ overgrown: 'by-others' })], 'plates'],
  ['more sample than was there after treatment', [one({ treatmentFactor: 2 })], 'plates.0.treatmentFactor'],
  ['more confirmed than picked', [one({ colonies: 5, confirmedOf: 2, confirmed: 3 })], 'plates.0.confirmed'],
])('%s is refused with its field', (_, given, path) => {
  expect(runCalculation({ id: 'plate-count', input: { plates: given } })).toMatchObject({ issues: [{ path }] })
})
