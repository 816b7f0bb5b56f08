import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { informative, type Stratum, stratifiedTwoByTwo } from './stratified-two-by-two.ts'

const count = fc.nat({ max: 30 })
const stratum = fc.record({ exposedCases: count, exposedWell: count, unexposedCases: count, unexposedWell: count })
const strata = fc.array(stratum, { minLength: 1, maxLength: 6 }).filter((tables) => tables.some(informative))
const run = (tables: Stratum[]) => stratifiedTwoByTwo({ tables, level: 0.95 })
const swapped = ({ exposedCases, exposedWell, unexposedCases, unexposedWell }: Stratum) => ({
  exposedCases: unexposedCases,
  exposedWell: unexposedWell,
  unexposedCases: exposedCases,
  unexposedWell: exposedWell,
})

test('rows changed places give the reciprocal, the same association and the same homogeneity', () => {
  fc.assert(
    fc.property(strata, (tables) => {
      const [one, other] = [run(tables), run(tables.map(swapped))]
      expect(other.association.p).toBeCloseTo(one.association.p, 9)
      const times = (a: number | undefined, b: number | undefined) =>
        a === undefined || b === undefined ? 'open' : a * b
      const ends = [one.mantelHaenszelOddsRatio, other.mantelHaenszelOddsRatio]
      const wanted = ends.includes(0) || ends.includes(undefined) ? 'open' : 1
      const product = times(one.mantelHaenszelOddsRatio, other.mantelHaenszelOddsRatio)
      expect(typeof product === 'number' ? Number(product.toFixed(9)) : product).toBe(wanted)
      expect(other.homogeneity?.p ?? 1).toBeCloseTo(one.homogeneity?.p ?? 1, 7)
    }),
  )
})

test('tables of the same odds ratio agree, and their order or an empty table beside them is nothing', () => {
  const table = { exposedCases: 6, exposedWell: 2, unexposedCases: 3, unexposedWell: 4 }
  const double = { exposedCases: 12, exposedWell: 4, unexposedCases: 6, unexposedWell: 8 }
  const empty = { exposedCases: 0, exposedWell: 0, unexposedCases: 5, unexposedWell: 7 }
  const got = run([table, double, empty])
  expect(got.mantelHaenszelOddsRatio).toBeCloseTo(4, 12)
  expect(got.homogeneity?.tarone).toBeCloseTo(0, 9)
  expect(got.informativeTables).toBe(2)
  expect(run([double, table]).interval.upper).toBeCloseTo(got.interval.upper ?? 0, 12)
})

test('whatever the tables, the answer is finite or left out', () => {
  fc.assert(
    fc.property(
      fc.array(fc.record({ ...stratumOf(fc.constantFrom(0, 1, 2, 1_000_000)) }), { maxLength: 4 }),
      (tables) => {
        const answer = runCalculation({ id: 'stratified-two-by-two', input: { tables } })
        const told = 'issues' in answer ? answer.issues.map(({ path }) => path) : JSON.stringify(answer.result)
        expect(told).not.toContain('null')
        expect('issues' in answer).toBe(!tables.some(informative))
      },
    ),
  )
})

function stratumOf(cell: fc.Arbitrary<number>) {
  return { exposedCases: cell, exposedWell: cell, unexposedCases: cell, unexposedWell: cell }
}

test('no table with people in both rows and columns is refused', () => {
  const tables = [{ exposedCases: 0, exposedWell: 3, unexposedCases: 0, unexposedWell: 2 }]
  expect(runCalculation({ id: 'stratified-two-by-two', input: { tables } })).toMatchObject({
    issues: [{ path: 'tables', received: 'none' }],
  })
  expect(() => run(tables)).toThrow(RangeError)
})
