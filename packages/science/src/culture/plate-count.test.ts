import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { plateCount } from './plate-count.ts'
import type { Plate } from './plates.ts'

const plate: fc.Arbitrary<Plate> = fc.record({
  colonies: fc.nat({ max: 300 }),
  platedMl: fc.double({ min: 0.05, max: 100, noNaN: true }),
  concentrationFactor: fc.double({ min: 0.1, max: 200, noNaN: true }),
})
const level = 0.95

test('the interval holds the concentration', () => {
  fc.assert(
    fc.property(fc.array(plate, { minLength: 1, maxLength: 5 }), (plates) => {
      const { cfuPerL, interval } = plateCount({ plates, level })
      expect(interval.lower).toBeLessThanOrEqual(cfuPerL)
      expect(interval.upper).toBeGreaterThan(cfuPerL)
    }),
  )
})

test('one plate or the same spread on two is the same water', () => {
  fc.assert(
    fc.property(plate, fc.nat({ max: 300 }), (whole, part) => {
      const first = { ...whole, colonies: Math.min(part, whole.colonies), platedMl: whole.platedMl / 3 }
      const second = { ...whole, colonies: whole.colonies - first.colonies, platedMl: (2 * whole.platedMl) / 3 }
      const one = plateCount({ plates: [whole], level })
      const two = plateCount({ plates: [first, second], level })
      expect(two.cfuPerL / (one.cfuPerL || 1)).toBeCloseTo(one.cfuPerL === 0 ? 0 : 1, 10)
      expect((two.interval.upper ?? 0) / (one.interval.upper ?? 0)).toBeCloseTo(1, 10)
      expect(two.qualifier).toBe(one.qualifier)
    }),
  )
})

test('colonies all picked and confirmed are as sure as colonies that needed none', () => {
  const plates = [{ colonies: 12, platedMl: 0.5, concentrationFactor: 10 }]
  const picked = plates.map((each) => ({ ...each, confirmedOf: 12, confirmed: 12 }))
  expect(plateCount({ plates: picked, level })).toEqual(plateCount({ plates, level }))
})

test('picking few leaves more doubt than picking all', () => {
  const at = (confirmedOf: number, confirmed: number) =>
    plateCount({ plates: [{ colonies: 20, platedMl: 1, concentrationFactor: 1, confirmedOf, confirmed }], level })
  const [few, all] = [at(5, 4), at(20, 16)]
  expect(few.cfuPerL).toBe(all.cfuPerL)
  expect(few.interval.upper).toBeGreaterThanOrEqual(all.interval.upper ?? 0)
  expect(few.interval.lower).toBeLessThan(all.interval.lower)
})

test('none confirmed is not detected, with an upper limit above 0', () => {
  const answer = plateCount({
    plates: [{ colonies: 8, platedMl: 1, concentrationFactor: 1, confirmedOf: 3, confirmed: 0 }],
    level,
  })
  expect(answer).toMatchObject({ cfuPerL: 0, qualifier: 'not-detected', interval: { lower: 0 } })
  expect(answer.interval.upper ?? 0).toBeGreaterThan(1000)
})

test.each([
  [0, 'not-detected'],
  [1, 'present'],
  [2, 'present'],
  [3, 'estimated'],
  [9, 'estimated'],
  [10, 'counted'],
])('%d colonies are %s', (colonies, qualifier) => {
  expect(plateCount({ plates: [{ colonies, platedMl: 1, concentrationFactor: 1 }], level }).qualifier).toBe(qualifier)
})

test('a plate that contradicts itself is refused', () => {
  const bad = (odd: Partial<Plate>) => () =>
    plateCount({ plates: [{ colonies: 5, platedMl: 1, concentrationFactor: 1, ...odd }], level })
  expect(bad({ confirmedOf: 6, confirmed: 6 })).toThrow(RangeError)
  expect(bad({ confirmedOf: 3, confirmed: 4 })).toThrow(RangeError)
  expect(bad({ confirmedOf: 0, confirmed: 0 })).toThrow(RangeError)
  expect(bad({ confirmed: 2 })).toThrow(RangeError)
})

test('plates that contradict each other are told of first, with the one furthest off; those that agree are not', () => {
  const cautions = (plates: object[]) => {
    const answer = runCalculation({ id: 'plate-count', input: { plates } })
    return 'cautions' in answer ? answer.cautions : []
  }
  const mixedUp = [
    { colonies: 5, platedMl: 1 },
    { colonies: 60, platedMl: 0.1 },
  ]
  expect(cautions(mixedUp)[0]).toMatch(
    /^The plates contradict each other: p .* by the G-test.* plate 2: 60 colonies where 5\.9/,
  )
  expect(cautions(mixedUp.toReversed())[0]).toContain('plate 1: 60')
  expect(cautions(mixedUp.map((each) => ({ ...each, treatment: 'heat' })))[0]).toContain('The plates (heat) contradict')
  const agreeing = [
    { colonies: 57, platedMl: 1 },
    { colonies: 5, platedMl: 0.1 },
  ]
  expect(cautions(agreeing).join()).not.toContain('contradict')
  // what is said of two treatments need not agree
  expect(cautions(mixedUp.map((each, i) => ({ ...each, treatment: i === 0 ? 'acid' : 'heat' }))).join()).not.toContain(
    'contradict',
  )
})
