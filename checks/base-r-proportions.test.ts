// Limits of proportions and of counts by base R 4.2.2 (qbeta, qchisq; Jeffreys limits set to 0 and 1 at none and all,
// as Brown, Cai and DasGupta do). Known by: computed. 81/263 and 15/148 are the examples of Newcombe, Stat Med 1998
// (data seen; his printed limits, 0.2553 to 0.3662 by the score method, are from memory and agree).
// Tolerance 1e-9: the values are printed to ten decimals.
import { poissonLimits } from '@rillmark/science/distributions/poisson-limits.ts'
import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { expect, test } from 'vitest'

const PRINTED_DECIMALS = 9

const PROPORTIONS = [
  // positive, total, exact, wilson, jeffreys
  [81, 263, [0.2527367456, 0.3676219226], [0.2552885199, 0.366209577], [0.254521935, 0.3656474992]],
  [15, 148, [0.0578440101, 0.1616504903], [0.0623863995, 0.1604872417], [0.060448517, 0.1576431435]],
  [0, 20, [0, 0.168433471], [0, 0.1611251581], [0, 0.1166389829]],
  [1, 29, [0.0008726469, 0.1776442955], [0.0061132143, 0.1717552188], [0.0037461736, 0.150077686]],
  [29, 29, [0.8805551309, 1], [0.8830302015, 1], [0.9177135171, 1]],
  [3, 10, [0.0667395112, 0.6524528501], [0.1077912674, 0.6032218525], [0.0926945939, 0.6058183181]],
  [5, 10, [0.1870860284, 0.8129139716], [0.2365930905, 0.7634069095], [0.2235286703, 0.7764713297]],
  [41, 160, [0.1905905854, 0.3311679201], [0.1948742027, 0.3290558174], [0.1933916561, 0.3278352251]],
  [1, 10, [0.0025285785, 0.445016117], [0.0178762131, 0.4041500268], [0.0110116738, 0.3813147711]],
  [0, 298, [0, 0.0123024881], [0, 0.0127267435], [0, 0.0083868977]],
  [10, 10, [0.6915028922, 1], [0.7224672001, 1], [0.7828037325, 1]],
] as const

test.each(PROPORTIONS)('%d of %d', (positive, total, exact, wilson, jeffreys) => {
  for (const [method, [lower, upper]] of Object.entries({ exact, wilson, jeffreys })) {
    const { interval } = proportion({ positive, total, method: method as 'exact', level: 0.95 })
    expect(interval.lower).toBeCloseTo(lower, PRINTED_DECIMALS)
    expect(interval.upper).toBeCloseTo(upper, PRINTED_DECIMALS)
  }
})

const COUNTS = [
  // count, lower, upper
  [0, 0, 3.688879454],
  [1, 0.02531780798, 5.571643391],
  [2, 0.2422092785, 7.224687668],
  [5, 1.62348639, 11.66833208],
  [10, 4.795388696, 18.39035604],
  [30, 20.24087402, 42.82686539],
  [100, 81.36399125, 121.6267938],
  [300, 267.0092752, 335.9411256],
] as const

test.each(COUNTS)('a count of %d', (count, lower, upper) => {
  const limits = poissonLimits(count, 0.95)
  // Printed to ten figures.
  expect(limits.lower).toBeCloseTo(lower, 6)
  expect(limits.upper).toBeCloseTo(upper, 6)
})
