// Limits, detection probabilities, sample sizes and odds ratios computed independently by checks/oracles/statistics.py
// (exact fractions and 40-digit roots, none of them by the methods of the product). Known by: computed.
// Tolerance 1e-10 relative: the product works in doubles, and its root finders stop at 1e-14.
import { detectionProbability } from '@rillmark/science/detection/detection-probability.ts'
import { outletsToSample } from '@rillmark/science/detection/outlets-to-sample.ts'
import { upperBoundAfterNegatives } from '@rillmark/science/detection/upper-bound-after-negatives.ts'
import { poissonLimits } from '@rillmark/science/distributions/poisson-limits.ts'
import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { twoByTwo } from '@rillmark/science/tables/two-by-two.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/statistics.json' with { type: 'json' }

const RELATIVE = 1e-10

/** Rows of the oracle, each with the tool it is from and how it is known. */
const known = <Row extends object>(rows: readonly Row[]) =>
  rows.map((row) => ({ ...row, from: `computed: ${oracle.tool}` }))

/** The pairs that don't agree. The oracle writes null where a value is infinite; the product leaves it out. */
function disagreeing(...pairs: [got: number | undefined, want: number | null | undefined][]): unknown[] {
  return pairs.filter(([got = Number.POSITIVE_INFINITY, want]) => {
    const wanted = want ?? Number.POSITIVE_INFINITY
    return got !== wanted && !(Math.abs(got - wanted) <= RELATIVE * Math.abs(wanted))
  })
}

test.each(known(oracle.proportions))(
  '$positive of $total at $level ($from)',
  ({ positive, total, level, ...wanted }) => {
    for (const method of ['wilson', 'exact', 'jeffreys'] as const) {
      const { interval } = proportion({ positive, total, level, method })
      const [lower, upper] = wanted[method]
      expect(disagreeing([interval.lower, lower], [interval.upper, upper])).toEqual([])
    }
  },
)

test.each(known(oracle.counts))('a count of $count at $level ($from)', ({ count, level, limits }) => {
  const { lower, upper } = poissonLimits(count, level)
  expect(disagreeing([lower, limits[0]], [upper, limits[1]])).toEqual([])
})

test.each(known(oracle.detection))(
  '$sampled of $outlets sampled, $colonised colonised ($from)',
  ({ outlets, colonised, sampled, sensitivity, probability }) => {
    expect(disagreeing([detectionProbability({ outlets, colonised, sampled, sensitivity }), probability])).toEqual([])
  },
)

test.each(known(oracle.samples))(
  'a sample of $outlets at $prevalence ($from)',
  ({ outlets, prevalence, sensitivity, confidence, sample }) => {
    expect(outletsToSample({ outlets, designPrevalence: prevalence, sensitivity, confidence })).toBe(sample)
  },
)

test.each(known(oracle.hidden))(
  '$sampled of $outlets negative ($from)',
  ({ outlets, sampled, sensitivity, level, upperNumber }) => {
    expect(upperBoundAfterNegatives({ outlets, sampled, sensitivity, level }).upperNumber).toBe(upperNumber)
  },
)

test.each(known(oracle.tables))('table $cells ($from)', ({ cells, exact, conditional, fisherTwoSided, midP }) => {
  const [exposedCases = 0, exposedWell = 0, unexposedCases = 0, unexposedWell = 0] = cells
  const got = twoByTwo({ exposedCases, exposedWell, unexposedCases, unexposedWell, level: 0.95 })
  const { interval, midPInterval } = got.oddsRatio
  // The oracle has no lower limit, and no inner estimate, where no unexposed or no exposed case was seen.
  const pairs: Parameters<typeof disagreeing> = [
    [got.fisherTwoSided, fisherTwoSided],
    [got.midP, midP.p],
    [interval.lower, exact[0] ?? 0],
    [interval.upper, exact[1]],
    [midPInterval.lower, midP.interval[0] ?? 0],
    [midPInterval.upper, midP.interval[1]],
    [got.oddsRatio.conditional, exposedCases === 0 ? 0 : conditional],
  ]
  expect(disagreeing(...pairs)).toEqual([])
})
