import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type LogisticRow, scaledDesign } from './design.ts'
import { climb, penalisedPoint } from './penalised-fit.ts'
import { profileLimit } from '../likelihood/profile-limit.ts'

const person = fc.record({
  outcome: fc.constantFrom<0 | 1>(0, 1),
  x: fc.constantFrom(0, 1),
  age: fc.integer({ min: 20, max: 90 }),
})
const differs = (rows: LogisticRow[], name: string) => new Set(rows.map((row) => row[name])).size > 1
const studies = fc
  .array(person, { minLength: 12, maxLength: 60 })
  .filter((rows) => differs(rows, 'x') && differs(rows, 'age'))

test('at a limit the function has fallen by what is wanted, and is level in the other coefficients', () => {
  let settled = 0
  fc.assert(
    fc.property(studies, fc.double({ min: 0.1, max: 5, noNaN: true }), (rows, wanted) => {
      const { patterns } = scaledDesign(rows)
      const columns = [0, 1, 2]
      const at = (coefficients: Float64Array) => penalisedPoint(patterns, coefficients)
      const top = climb(patterns, { coefficients: new Float64Array(3), free: columns })
      for (const j of columns)
        for (const side of [-1, 1] as const) {
          const coefficients = profileLimit({ at, top, j, side, wanted })
          if (coefficients === undefined) continue
          settled += 1
          const there = penalisedPoint(patterns, coefficients)
          expect(side * ((coefficients[j] ?? 0) - (top.coefficients[j] ?? 0))).toBeGreaterThan(0)
          expect(Math.abs(top.logLikelihood - there.logLikelihood - wanted)).toBeLessThan(1e-7)
          const level = columns.filter((other) => other !== j).map((other) => Math.abs(there.score[other] ?? 1))
          expect(Math.max(...level)).toBeLessThan(1e-6)
        }
    }),
    { numRuns: 60 },
  )
  expect(settled).toBeGreaterThan(300)
})
