// Every calculation with its worked example damaged anywhere: issues, or a result that is sound, and soon.
import { calculations, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { mutated } from './mutated.ts'

const RUNS = 150
/** The API answers everybody on one thread. */
const PATIENCE_MS = 3000

test.each(calculations.map((calculation) => [calculation.id, calculation] as const))(
  '%s answers anything',
  (id, { example, output }) => {
    fc.assert(
      fc.property(mutated(example.input), (input) => {
        const began = performance.now()
        const answer = runCalculation({ id, input })
        expect(performance.now() - began).toBeLessThan(PATIENCE_MS)
        const sound = 'issues' in answer ? answer.issues.length > 0 : output.safeParse(answer.result).success
        expect(sound).toBe(true)
        expect(JSON.stringify(answer)).not.toMatch(/NaN|Infinity/)
      }),
      { numRuns: RUNS, interruptAfterTimeLimit: 20_000, markInterruptAsFailure: true },
    )
  },
)
