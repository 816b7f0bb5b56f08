// Nothing found in n: the exact one-sided 95 % upper limit 1 − 0.05^(1/n), and the "rule of three" above it.
import { upperBoundAfterNegatives } from '@rillmark/science/detection/upper-bound-after-negatives.ts'
import { expect, test } from 'vitest'
import { type From, hold } from './rows.ts'

const R: From = 'computed: R 4.2.2'
const FIGURES = 'printed to ten figures'
const SHARE = { share: 5e-10 }
const upperFraction = (sampled: number) =>
  upperBoundAfterNegatives({ sampled, sensitivity: 1, level: 0.95 }).upperFraction

hold<number>(
  [
    ['none of 5', 5, 0.4507197283, SHARE, FIGURES, R],
    ['none of 10', 10, 0.2588655509, SHARE, FIGURES, R],
    ['none of 20', 20, 0.1391083407, SHARE, FIGURES, R],
    ['none of 30', 30, 0.09503385286, SHARE, FIGURES, R],
    ['none of 59', 59, 0.04950760989, SHARE, FIGURES, R],
    ['none of 100', 100, 0.02951304961, SHARE, FIGURES, R],
    ['none of 299', 299, 0.009969146793, SHARE, FIGURES, R],
  ],
  upperFraction,
)

test.each([5, 10, 20, 30, 59, 100, 299])(
  'none of %d: under three over n, the rule of Hanley and Lippman-Hand, JAMA 1983 (memory)',
  (sampled) => {
    expect(upperFraction(sampled)).toBeLessThan(3 / sampled)
  },
)
