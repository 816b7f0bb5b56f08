// Figures that go by one name and mean two things, or that a well-known program prints wrongly: which one the product gives, and that it is
// not the other. Each row names where both are from.
import { censoredSummary } from '@rillmark/science/censored/censored-summary.ts'
import type { Reading } from '@rillmark/science/censored/reading.ts'
import { detectionProbability } from '@rillmark/science/detection/detection-probability.ts'
import { mostProbableNumber } from '@rillmark/science/quantal/most-probable-number.ts'
import { twoByTwo } from '@rillmark/science/tables/two-by-two.ts'
import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { type From, hold } from './rows.ts'

const DIGITS: From = 'computed: mpmath 1.2.1 at 40 digits; SciPy 1.10.1 agrees to twelve'
const MEANINGS: From = 'computed: R 4.2.2 and the package exact2x2'
const RIDOUT: From = 'seen: Ridout 1994 and Jarvis et al. 2010, as quoted in the tests of the R package MPN'
const PLOTTING: From = 'computed: closed form of the plotting positions, and NADA 1.6-1.1 for constant 0'
const EXACT: From = 'computed: exact hypergeometric sum; the approximation as in Cameron and Baldock 1998'

type Cells = readonly [number, number, number, number]
const table = ([exposedCases, exposedWell, unexposedCases, unexposedWell]: Cells) =>
  twoByTwo({ exposedCases, exposedWell, unexposedCases, unexposedWell, level: 0.95 })
const TEA: Cells = [3, 1, 1, 3]
const CONVICTS: Cells = [2, 10, 15, 3]

// R's fisher.test stops its root finder early: 6.408308867 and 0.2117329153 to 621.9337505454 for the tea tasting.
hold<Cells>(
  [
    [
      'tea tasting, to ten digits',
      TEA,
      [6.4083196582, 0.2117355954466, 626.2435305888],
      { share: 1e-10 },
      'printed to eleven digits or more',
      DIGITS,
    ],
  ],
  (cells) => {
    const { conditional, interval } = table(cells).oddsRatio
    return [conditional, interval.lower, interval.upper]
  },
)

// Two-sided mid-p: twice the smaller side, not the sum of the less likely tables (0.0003118741381; here nearly half as much).
hold<Cells>(
  [
    ['convicts, mid-p', CONVICTS, 0.0004806619247, { share: 1e-9 }, 'printed to ten digits', MEANINGS],
    [
      'convicts, mid-p of 15/17 and 6/12',
      [15, 2, 6, 6],
      0.03578210895,
      { share: 1e-9 },
      'printed to ten digits',
      MEANINGS,
    ],
  ],
  (cells) => table(cells).midP,
)
// Fisher's two-sided p: the sum of the less likely tables, not twice the smaller side (0.0009303618867).
hold<Cells>(
  [['convicts, Fisher', CONVICTS, 0.0005367241191, { share: 1e-9 }, 'printed to ten digits', MEANINGS]],
  (cells) => table(cells).fisherTwoSided,
)

// All tubes alike: exact one-sided limits at 95 % and 97.5 %, and not where the likelihood ratio falls (5.77 and 749.6).
hold<number>(
  [
    ['no tube of 3-3-3', 0, [9.0, 11], 0.1, 'printed to two figures', RIDOUT],
    ['every tube of 3-3-3', 3, [465.1, 360], 3, 'printed to four and two figures', RIDOUT],
  ],
  (positive) => {
    const wells = [0.1, 0.01, 0.001].map((volumeMl) => ({ volumeMl, inoculated: 3, positive }))
    const { profileLikelihood, cox } = mostProbableNumber({ wells, information: 'observed', level: 0.95 }).interval
    return positive === 0 ? [profileLikelihood.upper, cox.upper] : [profileLikelihood.lower, cox.lower]
  },
)

// The approximation 1 − (1 − n·s/N)^D gives 0.8546066432; a survey planned with it takes more samples than needed.
hold<Parameters<typeof detectionProbability>[0]>(
  [
    [
      '20 of 50 sampled, 5 colonised, sensitivity 0.8',
      { outlets: 50, colonised: 5, sampled: 20, sensitivity: 0.8 },
      0.8644552846,
      5e-11,
      'printed to ten decimals',
      EXACT,
    ],
  ],
  detectionProbability,
)

test('imperfect specificity is refused by name, not passed over: its published packages disagree', () => {
  const input = { outlets: 150, colonised: 3, sampled: 30, sensitivity: 0.9, specificity: 0.98 }
  const got = runCalculation({ id: 'detection-probability', input })
  expect(got).toMatchObject({ issues: [{ path: 'specificity' }] })
})

const COUNTS: Reading[] = [
  ...[10, 10, 10, 100, 100].map((below) => ({ below })),
  20,
  30,
  50,
  50,
  120,
  200,
  340,
  600,
  900,
  1500,
  2600,
  5200,
  12000,
]
const summary = (plottingConstant: number) =>
  censoredSummary({ values: COUNTS, quantiles: [], plottingConstant, level: 0.95 })

// Robust regression on order statistics: the constant of the plotting positions moves the answer, so the answer carries it.
hold<number>(
  [['counts, constant 0', 0, 1314.135583546, { share: 1e-10 }, 'printed to thirteen digits', PLOTTING]],
  (constant) => summary(constant).orderStatistics?.mean,
)
test('another plotting constant is another answer, and says which', () => {
  const [none, blom] = [summary(0).orderStatistics, summary(0.375).orderStatistics]
  expect(none?.plottingConstant).toBe(0)
  expect(blom?.plottingConstant).toBe(0.375)
  expect(Math.abs((blom?.geometricMean ?? 0) / (none?.geometricMean ?? 1) - 1)).toBeGreaterThan(0.01)
})

test('the restricted and the unrestricted Kaplan-Meier mean are told apart', () => {
  const { kaplanMeier } = summary(0)
  expect(kaplanMeier?.restricted).toBe(true)
  expect(kaplanMeier?.mean).toBeLessThan(kaplanMeier?.meanAtSmallestValue ?? 0)
  expect(kaplanMeier?.meanWithin.lower).toBeLessThan(kaplanMeier?.mean ?? 0)
})
