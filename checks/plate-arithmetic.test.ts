// What one colony stands for, and worked counts, by the arithmetic of ISO 11731:2017 and ISO 8199. Known by: computed
// (the arithmetic itself is from memory).
// Probability of an empty plate: UKCEH data note on limits of detection. Known by: seen.
import { poissonLimits } from '@rillmark/science/distributions/poisson-limits.ts'
import { plateCount } from '@rillmark/science/culture/plate-count.ts'
import { expect, test } from 'vitest'

test.each([
  // what, mL plated, concentration factor, CFU/L of one colony
  ['1 L filtered, 5 mL eluate, 0.1 mL plated', 0.1, 200, 50],
  ['1 L filtered, 10 mL eluate, 0.1 mL plated', 0.1, 100, 100],
  ['1 L filtered, 10 mL eluate, 0.2 mL plated', 0.2, 100, 50],
  ['1 L filtered, 10 mL eluate, 0.5 mL plated', 0.5, 100, 20],
  ['100 mL membrane on agar', 100, 1, 10],
  ['0.1 mL direct', 0.1, 1, 10_000],
  ['0.5 mL direct', 0.5, 1, 2000],
  ['1 mL direct', 1, 1, 1000],
  ['1 L, 10 mL eluate, acid 1 to 1, 0.1 mL plated', 0.1, 50, 200],
])('%s', (_, platedMl, concentrationFactor, cfuPerL) => {
  const got = plateCount({ plates: [{ colonies: 1, platedMl, concentrationFactor }], level: 0.95 })
  expect(got.cfuPerL).toBeCloseTo(cfuPerL, 9)
  expect(got.detectionLimitCfuPerL).toBeCloseTo(cfuPerL, 9)
})

test.each([
  ['untreated', 100, 1840],
  ['acid 1 to 1', 50, 3680],
])('23 colonies, 4 of 5 picked confirmed, 0.1 mL of 10 mL eluate from 1 L, %s', (_, concentrationFactor, cfuPerL) => {
  const plates = [{ colonies: 23, platedMl: 0.1, concentrationFactor, confirmedOf: 5, confirmed: 4 }]
  expect(plateCount({ plates, level: 0.95 }).cfuPerL).toBeCloseTo(cfuPerL, 9)
})

test.each([
  // colonies, exact 95 % limits as printed: computed from the chi-square formula
  [0, 0, 3.689],
  [3, 0.619, 8.767],
  [20, 12.217, 30.888],
  [50, 37.111, 65.919],
])('%d colonies on 1 L', (colonies, lower, upper) => {
  const { interval } = plateCount({ plates: [{ colonies, platedMl: 1000, concentrationFactor: 1 }], level: 0.95 })
  expect(interval.lower).toBeCloseTo(lower, 3)
  expect(interval.upper).toBeCloseTo(upper, 3)
})

test.each([
  // mean, chance of an empty plate
  [1, 0.36788],
  [2, 0.13534],
  [3, 0.04979],
  [5, 0.00674],
])('a mean of %d colonies leaves a plate empty with chance %d', (mean, chance) => {
  // The upper limit of an empty plate is the mean at which it is that unlikely. Chances are printed to five decimals.
  expect(poissonLimits(0, 1 - 2 * chance).upper).toBeCloseTo(mean, 2)
})
