// SciPy documentation 1.7.0, BinomTestResult.proportion_ci: exact limits of 7 of 50. Known by: seen.
// Tolerance 1e-12: printed to sixteen figures; both sides work in doubles.
import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { expect, test } from 'vitest'

test('exact limits of 7 of 50', () => {
  const { interval } = proportion({ positive: 7, total: 50, method: 'exact', level: 0.95 })
  expect(interval.lower).toBeCloseTo(0.05819170033997342, 12)
  expect(interval.upper).toBeCloseTo(0.26739600249700846, 12)
})
