// Nothing found in n: exact one-sided 95 % upper limit 1 − 0.05^(1/n), against the "rule of three" of
// Hanley and Lippman-Hand, JAMA 1983. Known by: computed (base R). Printed to ten figures.
import { upperBoundAfterNegatives } from '@rillmark/science/detection/upper-bound-after-negatives.ts'
import { expect, test } from 'vitest'

test.each([
  // n, exact, three over n
  [5, 0.4507197283, 0.6],
  [10, 0.2588655509, 0.3],
  [20, 0.1391083407, 0.15],
  [30, 0.09503385286, 0.1],
  [59, 0.04950760989, 0.05084745763],
  [100, 0.02951304961, 0.03],
  [299, 0.009969146793, 0.01003344482],
])('none of %d', (sampled, exact, ruleOfThree) => {
  const { upperFraction } = upperBoundAfterNegatives({ sampled, sensitivity: 1, level: 0.95 })
  expect(upperFraction).toBeCloseTo(exact, 9)
  expect(upperFraction).toBeLessThan(ruleOfThree)
})
