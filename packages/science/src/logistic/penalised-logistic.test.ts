import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import type { LogisticRow } from './design.ts'
import { penalisedLogistic } from './penalised-logistic.ts'

const person = fc.record({
  outcome: fc.constantFrom<0 | 1>(0, 1),
  x: fc.constantFrom(0, 1),
  age: fc.integer({ min: 20, max: 90 }),
})
const studies = fc.array(person, { minLength: 12, maxLength: 40 })
const fitted = (rows: LogisticRow[]) => penalisedLogistic({ rows, level: 0.95 })
const varied = (rows: LogisticRow[]) => runCalculation({ id: 'penalised-logistic', input: { rows } })
const usable = studies.filter((rows) => !('issues' in varied(rows)))

test('one yes-or-no exposure has the closed form: half a person more in every cell', () => {
  const cell = fc.integer({ min: 0, max: 12 })
  fc.assert(
    fc.property(fc.tuple(cell, cell, cell, cell), ([a, b, c, d]) => {
      fc.pre(a + b > 0 && c + d > 0)
      const people = (row: { outcome: 0 | 1; x: number }, count: number) => Array.from({ length: count }, () => row)
      const rows = [
        ...people({ outcome: 1, x: 1 }, a),
        ...people({ outcome: 0, x: 1 }, b),
        ...people({ outcome: 1, x: 0 }, c),
        ...people({ outcome: 0, x: 0 }, d),
      ]
      const want = Math.log(((a + 0.5) * (d + 0.5)) / ((b + 0.5) * (c + 0.5)))
      expect(fitted(rows).coefficients['x']?.estimate).toBeCloseTo(want, 8)
    }),
    { numRuns: 40 },
  )
})

test('another unit of a covariate, another order of people, and outcomes turned round', () => {
  fc.assert(
    fc.property(usable, (rows) => {
      const one = fitted(rows)
      const months = fitted(rows.map((row) => ({ ...row, age: row.age * 12 })).toReversed())
      const turned = fitted(rows.map((row) => ({ ...row, outcome: row.outcome === 1 ? (0 as const) : (1 as const) })))
      const age = one.coefficients['age']
      expect((months.coefficients['age']?.estimate ?? 0) * 12).toBeCloseTo(age?.estimate ?? Number.NaN, 7)
      expect((months.coefficients['age']?.interval.upper ?? 0) * 12).toBeCloseTo(age?.interval.upper ?? Number.NaN, 6)
      expect(-(turned.coefficients['age']?.interval.lower ?? 0)).toBeCloseTo(age?.interval.upper ?? Number.NaN, 6)
      expect(months.test.p).toBeCloseTo(one.test.p, 7)
      expect(turned.penalisedLogLikelihood).toBeCloseTo(one.penalisedLogLikelihood, 8)
    }),
    { numRuns: 25 },
  )
})

test('a covariate that parts ill from well still has limits around a finite estimate', () => {
  const rows: LogisticRow[] = [1, 2, 3, 4].map((x) => ({ outcome: x > 2 ? 1 : 0, x }))
  const { estimate = 0, interval } = fitted(rows).coefficients['x'] ?? {}
  expect(estimate).toBeGreaterThan(0)
  expect(interval?.lower).toBeLessThan(estimate)
  expect(interval?.upper).toBeLessThan(1e3)
  const all = fitted([{ outcome: 1 }, { outcome: 1 }, { outcome: 1 }]).coefficients['intercept']
  expect(all?.estimate).toBeCloseTo(Math.log(3.5 / 0.5), 10)
})

test('rows that cannot be are refused with the row and the name', () => {
  expect(
    varied([
      { outcome: 1, x: 2 },
      { outcome: 0, x: 2 },
    ]),
  ).toEqual({
    issues: [
      { path: 'rows.0.x', expected: 'a covariate that differs between rows', received: 'the same in every row' },
    ],
  })
  const rows = [1, 2, 3, 4, 5].map((x) => ({ outcome: (x % 2) as 0 | 1, x, y: 3 - 2 * x }))
  expect(varied(rows)).toMatchObject({
    issues: [{ path: 'rows.0.y', received: 'one that follows from the others' }],
  })
  expect(varied([{ outcome: 1, x: 2 }, { outcome: 0 } as LogisticRow])).toMatchObject({
    issues: [{ path: 'rows.1.x', received: 'nothing' }],
  })
  expect(varied([{ outcome: 1, intercept: 2 }])).toMatchObject({ issues: [{ path: 'rows.0.intercept' }] })
  expect(runCalculation({ id: 'penalised-logistic', input: { rows: [{ outcome: 2 }] } })).toMatchObject({
    issues: [{ path: 'rows.0.outcome' }],
  })
  expect(() => fitted([{ outcome: 1, x: 2 }])).toThrow(RangeError)
})
