import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { hold } from './rows.ts'

hold(
  [
    [
      'exact limits of 7 of 50',
      { positive: 7, total: 50, method: 'exact' as const, level: 0.95 },
      [0.05819170033997342, 0.26739600249700846],
      2e-12,
      'its root finder stops at 2e-12',
      'seen: SciPy documentation 1.7.0, BinomTestResult.proportion_ci',
    ],
  ],
  (input) => {
    const { lower, upper } = proportion(input).interval
    return [lower, upper]
  },
)
