import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { type MatchedSet, matchedSets } from './matched-sets.ts'

const set = fc
  .record({ caseExposed: fc.boolean(), controls: fc.integer({ min: 1, max: 5 }), share: fc.nat({ max: 5 }) })
  .map(({ share, ...rest }) => ({ ...rest, controlsExposed: Math.min(share, rest.controls) }))
const tells = ({ caseExposed, controls, controlsExposed }: MatchedSet) =>
  controlsExposed + Number(caseExposed) > 0 && controlsExposed + Number(caseExposed) <= controls
const studies = fc.array(set, { minLength: 1, maxLength: 12 }).filter((sets) => sets.some(tells))
const run = (sets: MatchedSet[]) => matchedSets({ sets, level: 0.95 })
const opposite = ({ caseExposed, controls, controlsExposed }: MatchedSet) => ({
  caseExposed: !caseExposed,
  controls,
  controlsExposed: controls - controlsExposed,
})

test('exposed called unexposed gives the reciprocal, and the order of sets is nothing', () => {
  fc.assert(
    fc.property(studies, (sets) => {
      const [one, other] = [run(sets), run(sets.map(opposite).toReversed())]
      expect(one.oddsRatio * other.oddsRatio).toBeCloseTo(1, 8)
      expect((other.interval.lower ?? 0) * (one.interval.upper ?? 0)).toBeCloseTo(
        one.interval.upper === undefined ? 0 : 1,
        8,
      )
      expect(other.midP).toBeCloseTo(one.midP, 10)
    }),
  )
})

test('the distribution is that of every way the cases could fall out, counted one by one', () => {
  fc.assert(
    fc.property(studies, (sets) => {
      const telling = sets.filter(tells).slice(0, 10)
      const { p } = run(telling)
      const observed = telling.filter(({ caseExposed }) => caseExposed).length
      const chances = Array.from({ length: telling.length + 1 }, () => 0)
      for (let way = 0; way < 2 ** telling.length; way++) {
        let [chance, exposedCases] = [1, 0]
        for (const [i, { caseExposed, controls, controlsExposed }] of telling.entries()) {
          const exposed = controlsExposed + Number(caseExposed)
          const isExposed = Math.floor(way / 2 ** i) % 2
          chance *= (isExposed === 1 ? exposed : controls + 1 - exposed) / (controls + 1)
          exposedCases += isExposed
        }
        chances[exposedCases] = (chances[exposedCases] ?? 0) + chance
      }
      const from = (a: number, b: number) => chances.slice(a, b).reduce((sum, chance) => sum + chance, 0)
      expect(p).toBeCloseTo(Math.min(1, 2 * Math.min(from(observed, chances.length), from(0, observed + 1))), 9)
    }),
    { numRuns: 60 },
  )
})

test('every telling case exposed: the median-unbiased estimate, at which that has chance one half', () => {
  const got = run(Array.from({ length: 5 }, () => ({ caseExposed: true, controls: 2, controlsExposed: 0 })))
  expect(got).toMatchObject({ estimate: 'median-unbiased', informativeSets: 5 })
  expect((got.oddsRatio / (got.oddsRatio + 2)) ** 5).toBeCloseTo(0.5, 12)
  expect(((got.interval.lower ?? 0) / ((got.interval.lower ?? 0) + 2)) ** 5).toBeCloseTo(0.025, 12)
  expect(got.interval.upper).toBeUndefined()
})

test('twenty thousand sets are answered', () => {
  const sets = Array.from({ length: 20_000 }, (_, i) => ({
    caseExposed: i % 3 === 0,
    controls: 1 + (i % 5),
    controlsExposed: i % 2,
  }))
  const { interval, oddsRatio } = run(sets)
  expect(interval.lower).toBeLessThan(oddsRatio)
  expect(interval.upper).toBeGreaterThan(oddsRatio)
})

test('sets that cannot be are refused with the field', () => {
  const refused = (sets: unknown) => runCalculation({ id: 'matched-sets', input: { sets } })
  expect(refused([{ caseExposed: true, controls: 2, controlsExposed: 3 }])).toEqual({
    issues: [{ path: 'sets.0.controlsExposed', expected: 'at most the controls, 2', received: '3' }],
  })
  expect(refused([{ caseExposed: false, controls: 2, controlsExposed: 0 }])).toMatchObject({
    issues: [{ path: 'sets' }],
  })
  expect(() => run([{ caseExposed: false, controls: 2, controlsExposed: 0 }])).toThrow(RangeError)
})
