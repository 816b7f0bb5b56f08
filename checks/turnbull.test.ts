// Readings between limits, no shape assumed. Invented readings in every row; the expected shares come from the tools its `from` names, by the
// scripts of checks/oracles. Known by: computed, all rows. Tolerances: survfit stops once no share moves by 5e-5 a step, which can leave
// several times that: 2e-3; NumPy repeats until no place pulls by more than 1e-9, which leaves shares good to 1e-6.
import { censoredSummary } from '@rillmark/science/censored/censored-summary.ts'
import type { Reading, Span } from '@rillmark/science/censored/reading.ts'
import { type Portion, turnbull } from '@rillmark/science/censored/turnbull.ts'
import { expect, test } from 'vitest'
import places from './oracles/turnbull-places.json' with { type: 'json' }
import survfit from './oracles/turnbull.json' with { type: 'json' }

const SURVFIT_STOPS = 2e-3
const NUMPY_STOPS = 1e-6

const spansOf = ({ low, high }: { low: readonly number[]; high: readonly (number | null)[] }): Span[] =>
  low.map((each, i) => ({ low: each, high: high[i] ?? Number.POSITIVE_INFINITY }))
const shareOf = (portions: readonly Portion[], is: (portion: Portion) => boolean) =>
  portions.reduce((sum, portion) => sum + (is(portion) ? portion.mass : 0), 0)

test.each(survfit.studies.map((study) => ({ from: survfit.tool, known: 'computed', ...study })))(
  'invented readings of seed $seed ($from)',
  ({ times, above, ...study }) => {
    const portions = turnbull(spansOf(study))
    // It puts a share below a limit at the limit and one between two in the middle; one above the last limit stays above.
    const place = ({ low, high }: Portion) => (low === 0 ? high : Number.isFinite(high) ? (low + high) / 2 : high)
    for (const [i, time] of times.entries()) {
      // Times of survfit are printed to twelve figures.
      const got = shareOf(portions, (portion) => place(portion) > time * (1 + 1e-9))
      expect(Math.abs(got - (above[i] ?? Number.NaN))).toBeLessThan(SURVFIT_STOPS)
    }
  },
)

test.each(places.studies.map((study, number) => ({ number, from: places.tool, known: 'computed', ...study })))(
  'invented readings $number, ties among them ($from)',
  ({ numbers, below, logLikelihood, ...study }) => {
    const spans = spansOf(study)
    const portions = turnbull(spans)
    for (const [i, number] of numbers.entries()) {
      const under = shareOf(portions, ({ low, high }) => high <= number && low < number)
      expect(Math.abs(under - (below[i] ?? Number.NaN))).toBeLessThan(NUMPY_STOPS)
    }
    const held = spans.map((span) => shareOf(portions, (portion) => isWithin(portion, span)))
    expect(held.reduce((sum, share) => sum + Math.log(share), 0)).toBeCloseTo(logLikelihood, 7)
  },
)

function isWithin(portion: Portion, span: Span): boolean {
  if (span.low === span.high) return portion.low === span.low && portion.high === span.low
  const after = span.high === Number.POSITIVE_INFINITY && portion.low === portion.high ? portion.low > span.low : true
  const before = portion.low === portion.high ? portion.high < span.high : portion.high <= span.high
  return portion.low >= span.low && after && before
}

test('the mean of readings in bands: what is not known is bounded, and the bounds hold the mean', () => {
  // Two bands and a value, by hand: 1/3 each at 15 (middle of 10 to 20), 40 and, above 40, at 40.
  const values: Reading[] = [{ between: [10, 20] }, 40, { above: 40 }]
  const { kaplanMeier, orderStatistics } = censoredSummary({
    values,
    quantiles: [0.2, 0.9],
    plottingConstant: 0,
    level: 0.95,
  })
  expect(kaplanMeier?.mean).toBeCloseTo((15 + 40 + 40) / 3, 10)
  expect(kaplanMeier?.meanWithin.lower).toBeCloseTo((10 + 40 + 40) / 3, 10)
  expect(kaplanMeier).toMatchObject({ estimator: 'Turnbull', restricted: true, median: 40 })
  expect(kaplanMeier?.restrictedMass).toBeCloseTo(1 / 3, 10)
  expect(kaplanMeier?.meanWithin.upper).toBeUndefined()
  expect(kaplanMeier?.quantiles).toEqual([
    { p: 0.2, within: { lower: 10, upper: 20 } },
    { p: 0.9, within: { lower: 40 } },
  ])
  expect(orderStatistics).toBeUndefined()
})
