// Time of a common source. Known by: computed, unless a row says otherwise.
// checks/oracles/exposure.py: SciPy's distributions, Brent's rules and adaptive quadrature. Tolerances: a top is where a likelihood is
// flat, so doubles place it to about 1e-6 days; crossings are steep, 1e-6; integrals of the oracle stop at 1e-9, and bend at
// ends of stays; the chance of a spread is summed in 400 steps, to 1e-5.
// A release at day 100 with 20 onsets (synthetic), by base R: optimiser output, printed to 1e-8.
import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { exposureInput } from '@rillmark/science/incubation/exposure-fields.ts'
import { exposureTime } from '@rillmark/science/incubation/exposure-time.ts'
import { addDays } from '@rillmark/science/calendar/iso-date.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/exposure.json' with { type: 'json' }

const run = (input: unknown) => exposureTime(exposureInput.parse(input))
const TIME_DAYS = 1e-6
const SHARE = 1e-6

const off = (got: number | undefined, want: number): number => Math.abs((got ?? Number.NaN) - want)

test.each(oracle.cases)('$name', ({ input, ...want }) => {
  const got = run(input)
  expect(off(got.mostLikelyDays, want.mostLikelyDays)).toBeLessThan(TIME_DAYS)
  expect(off(got.intervalDays.lower, want.lower)).toBeLessThan(TIME_DAYS)
  expect(off(got.intervalDays.upper, want.upper)).toBeLessThan(TIME_DAYS)
  for (const [i, logLikelihood] of want.logLikelihoods.entries()) {
    expect(off(got.models[i]?.logLikelihood, logLikelihood) / Math.abs(logLikelihood)).toBeLessThan(1e-9)
    expect(off(got.models[i]?.mostLikelyDays, want.eachMostLikelyDays[i] ?? Number.NaN)).toBeLessThan(TIME_DAYS)
    expect(off(got.models[i]?.weight, want.weights[i] ?? Number.NaN)).toBeLessThan(SHARE)
  }
  const shares = new Map(got.days.map(({ date, share }) => [date, share]))
  for (const [day, share] of Object.entries(want.days))
    expect(off(shares.get(addDays(got.countedFrom, Number(day))), share)).toBeLessThan(SHARE)
})

test.each(oracle.cases.filter(({ chanceOfSpread }) => chanceOfSpread !== null))(
  '$name: chance of so wide a spread',
  ({ input, chanceOfSpread }) => {
    expect(off(run(input).models[0]?.chanceOfSpread, chanceOfSpread ?? Number.NaN)).toBeLessThan(1e-5)
  },
)

test('the oracle covers a lasting source, stays, moments, several models and the spread', () => {
  expect(oracle.cases.length).toBeGreaterThanOrEqual(14)
  expect(oracle.cases.filter(({ chanceOfSpread }) => chanceOfSpread !== null).length).toBeGreaterThan(7)
})

// Synthetic onsets from gamma-a after a release at the start of day 100, base R 4.2.2. R numbers a day by its end: day 103 is from 102 to 103.
const RELEASE = [103, 103, 104, 104, 105, 105, 105, 106, 106, 106, 107, 107, 107, 108, 108, 109, 109, 110, 111, 113]
const DAY_0 = '2026-01-01'
const day = (number: number) => addDays(DAY_0, number - 1)
const FIRST = 102

test('a release at day 100: top, interval, likelihood and the whole-day posterior', () => {
  const got = run({ onsets: RELEASE.map(day), model: 'gamma-a' })
  expect(off(got.mostLikelyDays + FIRST, 100.1674339)).toBeLessThan(1e-6)
  expect(off(got.intervalDays.lower + FIRST, 99.06167914)).toBeLessThan(1e-6)
  expect(off(got.intervalDays.upper + FIRST, 101.08722191)).toBeLessThan(1e-6)
  expect(off(got.models[0]?.logLikelihood, -46.60162118)).toBeLessThan(1e-8)
})

test.each([
  // t0, log-likelihood
  [97.5, -55.806573789],
  [98, -53.0349619416],
  [99, -48.7240433975],
  [100, -46.6526480224],
  [100.5, -46.822565709],
  [101, -48.1433412571],
])('a release at day 100: likelihood at %d', (t0, logLikelihood) => {
  // The source is held within a minute of t0.
  const at = `${day(Math.floor(t0) + 1)}T${t0 % 1 === 0.5 ? '12' : '00'}:00`
  const got = run({ onsets: RELEASE.map(day), between: { from: at, to: at.replace(':00', ':01') } })
  // A minute moves ℓ by less than 1e-2 at its steepest, 15 a day.
  expect(off(got.models[0]?.logLikelihood, logLikelihood)).toBeLessThan(1e-2)
})

test('a release at day 100: one median incubation before the median onset', () => {
  const { backFromMedian = '' } = run({ onsets: RELEASE.map(day) }).models[0] ?? {}
  // R took the median day itself (106.5): its middle is half a day before. Written to the minute.
  const days = (Date.parse(`${backFromMedian}Z`) - Date.parse(`${DAY_0}T00:00Z`)) / 86_400_000
  expect(off(days, 100.6186992 - 0.5)).toBeLessThan(1 / 1440)
})

// Rules of thumb, CDC Principles of Epidemiology Lesson 6 (seen): one average incubation back from the median case, and one minimum back
// from the earliest, bracket the exposure when one source explains them; widened by 20 to 50 % either side.
test('the rule by hand lies within the interval of a source that fits', () => {
  const { interval, models, fits } = run({ onsets: RELEASE.map(day) })
  const byHand = models[0]?.backFromMedian ?? ''
  expect(fits).toBe('yes')
  expect(byHand > interval.lower && byHand < interval.upper).toBe(true)
})

test('the catalogue answers a plain list of days', () => {
  expect(runCalculation({ id: 'exposure-time', input: { onsets: RELEASE.map(day), model: 'gamma-a' } })).toMatchObject({
    result: { onsets: 20, mostLikelyDay: day(101) },
  })
})
