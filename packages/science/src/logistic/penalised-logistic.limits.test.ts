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

test('at a limit the function, its other coefficients at their best, has fallen by what is wanted', () => {
  fc.assert(
    fc.property(studies, fc.double({ min: 0.1, max: 5, noNaN: true }), (rows, wanted) => {
      const { patterns } = scaledDesign(rows)
      const columns = [0, 1, 2]
      const at = (coefficients: Float64Array) => penalisedPoint(patterns, coefficients)
      const top = climb(patterns, { coefficients: new Float64Array(3), free: columns })
      for (const j of columns)
        for (const side of [-1, 1] as const) {
          const limit = profileLimit({ at, top, j, side, wanted }) ?? Number.NaN
          const coefficients = Float64Array.from(top.coefficients)
          coefficients[j] = limit
          const held = climb(patterns, { coefficients, free: columns.filter((other) => other !== j) })
          expect(side * (limit - (top.coefficients[j] ?? 0))).toBeGreaterThan(0)
          expect(Math.abs(top.logLikelihood - held.logLikelihood - wanted)).toBeLessThan(1e-8)
        }
    }),
    { numRuns: 60 },
  )
})
