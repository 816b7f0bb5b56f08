// Readings with several limits. Arsenic in Oahu (Helsel 2005, chapter 6; limits 0.9, 1 and 2 as the help of the R package NADA gives them:
// seen; printed means 0.949, 0.972 and 0.945: memory, agree) and pyrene (She 1997), with NADA 1.6-1.1, EnvStats 3.1.0 and survival 3.5.3: computed.
// Left, right and interval censoring: survreg and R's own optimiser, checks/oracles/censored.R: computed.
// Tolerances: 1e-8 for closed forms, 1e-6 for optimisers.
import { censoredSummary } from '@rillmark/science/censored/censored-summary.ts'
import type { Reading } from '@rillmark/science/censored/reading.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/censored.json' with { type: 'json' }

const parsed = (text: string): Reading[] =>
  text.split(' ').map((word) => (word.startsWith('<') ? { below: Number(word.slice(1)) } : Number(word)))
const summary = (values: Reading[], plottingConstant = 0) =>
  censoredSummary({ values, quantiles: [0.9, 0.95], plottingConstant, level: 0.95 })
const ratio = (got: number | undefined, want: number | undefined | null) => (got ?? Number.NaN) / (want ?? Number.NaN)

const OAHU = parsed('<1 <1 1.7 <1 <1 <2 3.2 <2 <2 2.8 <2 <2 <2 <2 <2 0.7 0.9 0.5 0.5 <0.9 0.5 0.7 0.6 1.5')
const PYRENE = parsed(
  '<28 31 32 34 <35 <35 40 47 48 <58 59 63 64 64 67 67 67 72 73 84 86 <86 87 94 98 100 103 103 105 107 110 111 <117 119 119 <122 122 132 133 133 138 <163 <163 <163 163 <174 187 190 222 238 273 289 306 333 459 2982',
)
const COUNTS = parsed('<10 <10 <10 <100 <100 20 30 50 50 120 200 340 600 900 1500 2600 5200 12000')

test.each([
  // readings, then mle: meanlog, sdlog, log-likelihood, mean, sd, p90, p95
  ['Oahu', OAHU, -0.2528290104, 0.6269484572, -14.29523803, 0.9452585166, 0.6559261492, 1.734358781, 2.178005247],
  ['pyrene', PYRENE, 4.517956543, 0.8709106365, -277.5358363, 133.9141886, 142.6698351, 279.7995441, 383.936457],
  ['counts', COUNTS, 4.648924806, 2.738772832, -112.4814207, 4444.2354, 189004.3021, 3494.003237, 9450.332762],
] as const)(
  '%s: most likely lognormal distribution (survreg of survival 3.5.3, computed)',
  (_, values, meanLog, sdLog, logLikelihood, mean, sd, p90, p95) => {
    const { mle } = summary([...values])
    expect(mle?.meanLog).toBeCloseTo(meanLog, 7)
    expect(mle?.sdLog).toBeCloseTo(sdLog, 7)
    expect(ratio(mle?.logLikelihood, logLikelihood)).toBeCloseTo(1, 8)
    expect(ratio(mle?.mean, mean)).toBeCloseTo(1, 7)
    expect(ratio(mle?.sd, sd)).toBeCloseTo(1, 7)
    expect(ratio(mle?.quantiles[0]?.value, p90)).toBeCloseTo(1, 7)
    expect(ratio(mle?.quantiles[1]?.value, p95)).toBeCloseTo(1, 7)
  },
)

test.each([
  // readings, Kaplan-Meier mean with what is left at the smallest value (as NADA has it), median; order statistics: mean, sd, median
  ['Oahu', OAHU, 0.9489583333, 0.7, 0.9724632417, 0.7180122488, 0.7],
  ['pyrene', PYRENE, 164.203594, 98, 163.2493657814, 393.1068202829, 90.5],
  ['counts', COUNTS, 1318.333333, 50, 1314.135583546, 2973.531279593, 85],
] as const)(
  '%s: Kaplan-Meier and order statistics (NADA 1.6-1.1, computed)',
  (_, values, kaplanMeier, median, mean, sd, middle) => {
    const got = summary([...values])
    expect(ratio(got.kaplanMeier?.meanAtSmallestValue, kaplanMeier)).toBeCloseTo(1, 8)
    expect(got.kaplanMeier?.median).toBe(median)
    expect(ratio(got.orderStatistics?.mean, mean)).toBeCloseTo(1, 8)
    expect(ratio(got.orderStatistics?.sd, sd)).toBeCloseTo(1, 8)
    expect(got.orderStatistics?.median).toBeCloseTo(middle, 8)
  },
)

test('the restricted mean puts what is left at the smallest limit, and says so', () => {
  // 3 of 14 below 10, the rest as in the row above: 1318.333 less 3/14 of the 10 between 20 and 10.
  const { kaplanMeier } = summary(COUNTS)
  expect(kaplanMeier).toMatchObject({ restricted: true })
  expect(kaplanMeier?.restrictedMass).toBeCloseTo(3 / 14, 10)
  expect(kaplanMeier?.mean).toBeCloseTo(1318.3333333 - (3 / 14) * 10, 6)
  expect(summary(OAHU).kaplanMeier).toMatchObject({ restricted: false, restrictedMass: 0 })
})

test('readings of every kind: survreg (computed), meanlog 4.9501191153, sdlog 2.6772532027', () => {
  const closed = parsed('<10 <10 <100 <100 20 30 50 50 120 200 340 600 900 1500 2600')
  const values: Reading[] = [...closed, { above: 3000 }, { above: 3000 }]
  const { mle } = summary(values)
  expect(mle?.meanLog).toBeCloseTo(4.9501191153, 7)
  expect(mle?.sdLog).toBeCloseTo(2.6772532027, 7)
  expect(mle?.logLikelihood).toBeCloseTo(-90.848697758, 7)
})

test.each(oracle.studies)('invented readings of seed $seed: fit and profile limits (R, computed)', (study) => {
  const values = study.low.map((low, i): Reading => {
    const high = study.high[i]
    if (high === null || high === undefined) return { above: low }
    if (low === high) return low
    return low === 0 ? { below: high } : { between: [low, high] }
  })
  const { mle } = summary(values)
  expect(ratio(mle?.meanLog, study.meanLog)).toBeCloseTo(1, 7)
  expect(ratio(mle?.sdLog, study.sdLog)).toBeCloseTo(1, 7)
  expect(ratio(mle?.logLikelihood, study.logLikelihood)).toBeCloseTo(1, 8)
  expect(ratio(mle?.geometricMeanInterval.lower, study.geometricMean[0])).toBeCloseTo(1, 6)
  expect(ratio(mle?.geometricMeanInterval.upper, study.geometricMean[1])).toBeCloseTo(1, 6)
  expect(ratio(mle?.interval.lower, study.mean[0])).toBeCloseTo(1, 6)
  expect(ratio(mle?.interval.upper, study.mean[1])).toBeCloseTo(1, 6)
})
