// What colonies on plates stand for.
import { plateCount } from '@rillmark/science/culture/plate-count.ts'
import type { Plate } from '@rillmark/science/culture/plates.ts'
import { poissonLimits } from '@rillmark/science/distributions/poisson-limits.ts'
import { type From, hold } from './rows.ts'

const ARITHMETIC: From = 'computed: the arithmetic of ISO 11731:2017 and ISO 8199 (the arithmetic itself from memory)'
const FORMULA: From = 'computed: chi-squared quantiles of R 4.2.2'
const EMPTY: From = 'seen: UK Centre for Ecology and Hydrology, data note on limits of detection'
const PACKAGE: From =
  'computed: R package MPN 0.4.0 (by authors of the FDA), its function for plates too numerous to count'
const EXACT = 'arithmetic in doubles'
const DOUBLES = { share: 1e-12 }

const one = (odd: Partial<Plate>): Plate => ({ colonies: 1, platedMl: 1, concentrationFactor: 1, ...odd })
const run = (plates: Plate[]) => plateCount({ plates, level: 0.95 })

hold<Partial<Plate>>(
  [
    [
      '1 L filtered, 5 mL eluate, 0.1 mL plated',
      { platedMl: 0.1, concentrationFactor: 200 },
      [50, 50],
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    [
      '1 L filtered, 10 mL eluate, 0.1 mL plated',
      { platedMl: 0.1, concentrationFactor: 100 },
      [100, 100],
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    [
      '1 L filtered, 10 mL eluate, 0.2 mL plated',
      { platedMl: 0.2, concentrationFactor: 100 },
      [50, 50],
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    [
      '1 L filtered, 10 mL eluate, 0.5 mL plated',
      { platedMl: 0.5, concentrationFactor: 100 },
      [20, 20],
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    ['100 mL membrane on agar', { platedMl: 100 }, [10, 10], DOUBLES, EXACT, ARITHMETIC],
    ['0.1 mL direct', { platedMl: 0.1 }, [10_000, 10_000], DOUBLES, EXACT, ARITHMETIC],
    ['0.5 mL direct', { platedMl: 0.5 }, [2000, 2000], DOUBLES, EXACT, ARITHMETIC],
    ['1 mL direct', {}, [1000, 1000], DOUBLES, EXACT, ARITHMETIC],
    [
      'acid 1 to 1, in the concentration',
      { platedMl: 0.1, concentrationFactor: 50 },
      [200, 200],
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    [
      'acid 1 to 1, as treatment',
      { platedMl: 0.1, concentrationFactor: 100, treatmentFactor: 0.5 },
      [200, 200],
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
  ],
  (odd) => {
    const { cfuPerL, detectionLimitCfuPerL } = run([one(odd)])
    return [cfuPerL, detectionLimitCfuPerL]
  },
)

const picked = { colonies: 23, platedMl: 0.1, confirmedOf: 5, confirmed: 4 }
hold<Plate[]>(
  [
    [
      '23 colonies, 4 of 5 confirmed, 10 mL eluate of 1 L',
      [one({ ...picked, concentrationFactor: 100 })],
      1840,
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    [
      'the same after acid 1 to 1',
      [one({ ...picked, concentrationFactor: 100, treatmentFactor: 0.5 })],
      3680,
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    [
      '31 on 1 mL and 4 on 0.1 mL: 35 on 1.1 mL',
      [one({ colonies: 31 }), one({ colonies: 4, platedMl: 0.1 })],
      35_000 / 1.1,
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
    [
      'untreated 12, heat 19 and acid 7 on a mL: the highest',
      [
        one({ colonies: 12, treatment: 'untreated' }),
        one({ colonies: 19, treatment: 'heat' }),
        one({ colonies: 7, treatment: 'acid' }),
      ],
      19_000,
      DOUBLES,
      EXACT,
      ARITHMETIC,
    ],
  ],
  (plates) => run(plates).cfuPerL,
)

const PRINTED = 'printed to three decimals'
hold<number>(
  [
    ['0 colonies', 0, [0, 3.689], 0.0005, PRINTED, FORMULA],
    ['3 colonies', 3, [0.619, 8.767], 0.0005, PRINTED, FORMULA],
    ['20 colonies', 20, [12.217, 30.888], 0.0005, PRINTED, FORMULA],
    ['50 colonies', 50, [37.111, 65.919], 0.0005, PRINTED, FORMULA],
  ],
  (colonies) => {
    const { interval } = run([one({ colonies, platedMl: 1000 })])
    return [interval.lower, interval.upper]
  },
)

const FIVE = 'chances are printed to five decimals'
hold<number>(
  // An empty plate's upper limit is the mean at which it is that unlikely.
  [
    ['a mean of 1 leaves a plate empty with chance 0.36788', 0.36788, 1, 0.00002, FIVE, EMPTY],
    ['a mean of 2, 0.13534', 0.13534, 2, 0.00005, FIVE, EMPTY],
    ['a mean of 3, 0.04979', 0.04979, 3, 0.0001, FIVE, EMPTY],
    ['a mean of 5, 0.00674', 0.00674, 5, 0.0008, FIVE, EMPTY],
  ],
  (chance) => poissonLimits(0, 1 - 2 * chance).upper,
)

const crowded = (colonies: number): Plate => one({ colonies, platedMl: 0.01, overgrown: 'by-legionella' })
hold<Plate[]>(
  [
    [
      '28 and 20 on 0.001 mL, more than 300 and 250 on 0.01 mL',
      [one({ colonies: 28, platedMl: 0.001 }), one({ colonies: 20, platedMl: 0.001 }), crowded(300), crowded(250)],
      [30_183_828, 26_792_251, 34_963_339],
      { share: 0.004 },
      'it words "too many" a little differently: a colony more or less in the limit moves the answer by 0.3 %',
      PACKAGE,
    ],
  ],
  (plates) => {
    const { cfuPerL, interval } = run(plates)
    return [cfuPerL, interval.lower, interval.upper]
  },
)
