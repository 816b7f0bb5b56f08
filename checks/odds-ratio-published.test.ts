// One exposure and illness: exact and mid-p limits, and p values.
import { twoByTwo } from '@rillmark/science/tables/two-by-two.ts'
import { expect, test } from 'vitest'
import { type From, hold } from './rows.ts'

type Cells = readonly [exposedCases: number, exposedWell: number, unexposedCases: number, unexposedWell: number]
const table = ([exposedCases, exposedWell, unexposedCases, unexposedWell]: Cells) =>
  twoByTwo({ exposedCases, exposedWell, unexposedCases, unexposedWell, level: 0.95 })

const DEN_BOER: From =
  'computed: mpmath 1.2.1 at 40 digits, risk ratio R 4.2.2; counts of den Boer et al., Emerg Infect Dis 2002 (seen)'
const CLASSIC: From =
  'computed: mpmath 1.2.1 at 40 digits; counts of Fisher 1935 and 1962 (memory, as the help of R has them)'
const VIGNETTE: From = 'computed: mpmath 1.2.1 at 40 digits; counts of the vignette of the R package exact2x2 (seen)'
const INVENTED: From = 'computed: mpmath 1.2.1 at 40 digits; invented counts'
const PRINTED = 'printed to ten to thirteen figures'
const SHARE = { share: 1e-9 }

const FLOWERS: Cells = [10, 0, 3, 18]
hold<Cells>(
  [
    [
      'the flower show: Fisher, lower exact, lower mid-p, risk ratio and limits',
      FLOWERS,
      [6.448388708871e-6, 7.393285988718, 9.896764211953, 7, 2.455340214, 19.956501227],
      SHARE,
      PRINTED,
      DEN_BOER,
    ],
  ],
  (cells) => {
    const { fisherTwoSided, oddsRatio, riskRatio } = table(cells)
    const { estimate, interval } = riskRatio
    return [
      fisherTwoSided,
      oddsRatio.interval.lower,
      oddsRatio.midPInterval.lower,
      estimate,
      interval.lower,
      interval.upper,
    ]
  },
)

test('the flower show: p < 0.001 as published (den Boer et al. 2002: seen), and nothing infinite is written', () => {
  const { fisherTwoSided, oddsRatio } = table(FLOWERS)
  expect(fisherTwoSided).toBeLessThan(0.001)
  expect(oddsRatio.interval.upper).toBeUndefined()
  expect(oddsRatio.conditional).toBeUndefined()
})

hold<Cells>(
  // conditional; exact; mid-p; Fisher's p; twice the smaller mid-p
  [
    [
      'tea tasting',
      [3, 1, 1, 3],
      [
        6.4083196582, 0.2117355954466, 626.2435305888, 0.3100548817191, 308.5567715812, 0.4857142857143,
        0.2571428571429,
      ],
      SHARE,
      PRINTED,
      CLASSIC,
    ],
    [
      'convicts',
      [2, 10, 15, 3],
      [
        0.04693663904968, 0.003317163950657, 0.3631896023567, 0.004824611669019, 0.2958662045915, 0.0005367241191434,
        0.0004806619246768,
      ],
      SHARE,
      PRINTED,
      CLASSIC,
    ],
    [
      '15 of 17 and 6 of 12',
      [15, 2, 6, 6],
      [
        6.924700072366, 0.911924019568, 89.22572126973, 1.126880387983, 62.01260295903, 0.038193723651,
        0.03578210894553,
      ],
      SHARE,
      PRINTED,
      VIGNETTE,
    ],
    [
      'a small table',
      [5, 1, 2, 9],
      [
        17.34023819277, 1.152933220015, 1177.469316384, 1.529120008374, 585.0667713402, 0.03450226244344,
        0.01809954751131,
      ],
      SHARE,
      PRINTED,
      INVENTED,
    ],
  ],
  (cells) => {
    const { oddsRatio, fisherTwoSided, midP } = table(cells)
    const { conditional, interval, midPInterval } = oddsRatio
    return [conditional, interval.lower, interval.upper, midPInterval.lower, midPInterval.upper, fisherTwoSided, midP]
  },
)
