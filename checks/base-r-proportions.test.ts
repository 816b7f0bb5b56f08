// Limits of proportions and of counts.
import { poissonLimits } from '@rillmark/science/distributions/poisson-limits.ts'
import { proportion } from '@rillmark/science/proportions/proportion.ts'
import { type From, hold } from './rows.ts'

const R: From = 'computed: R 4.2.2 (qbeta, qchisq)'
const NEWCOMBE: From =
  'computed: R 4.2.2; counts of Newcombe, Stat Med 1998 (seen), whose score limits 0.2553 and 0.3662 of the first agree (memory)'
const BROWN: From = 'computed: R 4.2.2, set to 0 and 1 at none and all as Brown, Cai and DasGupta 2001 do'
const TEN = 'printed to ten decimals'
const HALF = 5.1e-11
const FIGURES = 'printed to ten figures'

const PROPORTIONS = [
  // positive, total, exact, wilson, jeffreys, from
  [81, 263, [0.2527367456, 0.3676219226], [0.2552885199, 0.366209577], [0.254521935, 0.3656474992], NEWCOMBE],
  [15, 148, [0.0578440101, 0.1616504903], [0.0623863995, 0.1604872417], [0.060448517, 0.1576431435], NEWCOMBE],
  [0, 20, [0, 0.168433471], [0, 0.1611251581], [0, 0.1166389829], BROWN],
  [1, 29, [0.0008726469, 0.1776442955], [0.0061132143, 0.1717552188], [0.0037461736, 0.150077686], R],
  [29, 29, [0.8805551309, 1], [0.8830302015, 1], [0.9177135171, 1], BROWN],
  [3, 10, [0.0667395112, 0.6524528501], [0.1077912674, 0.6032218525], [0.0926945939, 0.6058183181], R],
  [5, 10, [0.1870860284, 0.8129139716], [0.2365930905, 0.7634069095], [0.2235286703, 0.7764713297], R],
  [41, 160, [0.1905905854, 0.3311679201], [0.1948742027, 0.3290558174], [0.1933916561, 0.3278352251], R],
  [1, 10, [0.0025285785, 0.445016117], [0.0178762131, 0.4041500268], [0.0110116738, 0.3813147711], R],
  [0, 298, [0, 0.0123024881], [0, 0.0127267435], [0, 0.0083868977], BROWN],
  [10, 10, [0.6915028922, 1], [0.7224672001, 1], [0.7828037325, 1], BROWN],
] as const

const LIMITS = { exact: 2, wilson: 3, jeffreys: 4 } as const
hold(
  PROPORTIONS.flatMap((row) =>
    (['exact', 'wilson', 'jeffreys'] as const).map(
      (method) =>
        [
          `${row[0]} of ${row[1]}, ${method}`,
          { positive: row[0], total: row[1], method, level: 0.95 },
          row[LIMITS[method]],
          HALF,
          TEN,
          row[5],
        ] as const,
    ),
  ),
  (input) => {
    const { lower, upper } = proportion(input).interval
    return [lower, upper]
  },
)

hold<number>(
  [
    ['a count of 0', 0, [0, 3.688879454], { share: 5e-10 }, FIGURES, R],
    ['a count of 1', 1, [0.02531780798, 5.571643391], { share: 5e-10 }, FIGURES, R],
    ['a count of 2', 2, [0.2422092785, 7.224687668], { share: 5e-10 }, FIGURES, R],
    ['a count of 5', 5, [1.62348639, 11.66833208], { share: 5e-10 }, FIGURES, R],
    ['a count of 10', 10, [4.795388696, 18.39035604], { share: 5e-10 }, FIGURES, R],
    ['a count of 30', 30, [20.24087402, 42.82686539], { share: 5e-10 }, FIGURES, R],
    ['a count of 100', 100, [81.36399125, 121.6267938], { share: 5e-10 }, FIGURES, R],
    ['a count of 300', 300, [267.0092752, 335.9411256], { share: 5e-10 }, FIGURES, R],
  ],
  (count) => {
    const { lower, upper } = poissonLimits(count, 0.95)
    return [lower, upper]
  },
)
