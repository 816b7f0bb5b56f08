// Den Boer et al., Emerg Infect Dis 2002: 10 of 10 patients and 3 of 21 controls had visited the flower show, p < 0.001.
// Counts and p: seen. R 4.2.2 (risk ratio on the logarithm, Woolf's odds ratio aside) and mpmath 1.2.1 at 40 digits for
// the exact and mid-p limits: computed. Fisher's tea tasting (1935) and convicts (1962): counts from memory of the
// classics, as R's help has them; values computed.
// Tolerance 1e-9 relative: printed to ten to thirteen figures.
import { twoByTwo } from '@rillmark/science/tables/two-by-two.ts'
import { expect, test } from 'vitest'

const ratio = (got: number | undefined, want: number) => (got ?? Number.NaN) / want
const table = ([exposedCases, exposedWell, unexposedCases, unexposedWell]: [number, number, number, number]) =>
  twoByTwo({ exposedCases, exposedWell, unexposedCases, unexposedWell, level: 0.95 })

test('the flower show', () => {
  const got = table([10, 0, 3, 18])
  expect(got.fisherTwoSided).toBeLessThan(0.001)
  expect(ratio(got.fisherTwoSided, 6.448388708871e-6)).toBeCloseTo(1, 9)
  expect(ratio(got.oddsRatio.interval.lower, 7.393285988718)).toBeCloseTo(1, 9)
  expect(ratio(got.oddsRatio.midPInterval.lower, 9.896764211953)).toBeCloseTo(1, 9)
  expect(got.oddsRatio.interval.upper).toBeUndefined()
  expect(got.oddsRatio.conditional).toBeUndefined()
  expect(ratio(got.riskRatio.estimate, 7)).toBeCloseTo(1, 9)
  expect(ratio(got.riskRatio.interval.lower, 2.455340214)).toBeCloseTo(1, 9)
  expect(ratio(got.riskRatio.interval.upper, 19.956501227)).toBeCloseTo(1, 9)
})

test.each([
  // cells, conditional, exact, mid-p, Fisher, twice the smaller mid-p
  [
    'tea tasting',
    [3, 1, 1, 3],
    6.4083196582,
    [0.2117355954466, 626.2435305888],
    [0.3100548817191, 308.5567715812],
    0.4857142857143,
    0.2571428571429,
  ],
  [
    'convicts',
    [2, 10, 15, 3],
    0.04693663904968,
    [0.003317163950657, 0.3631896023567],
    [0.004824611669019, 0.2958662045915],
    0.0005367241191434,
    0.0004806619246768,
  ],
  [
    '15 of 17 and 6 of 12',
    [15, 2, 6, 6],
    6.924700072366,
    [0.911924019568, 89.22572126973],
    [1.126880387983, 62.01260295903],
    0.038193723651,
    0.03578210894553,
  ],
  [
    'a small table',
    [5, 1, 2, 9],
    17.34023819277,
    [1.152933220015, 1177.469316384],
    [1.529120008374, 585.0667713402],
    0.03450226244344,
    0.01809954751131,
  ],
] as const)('%s', (_, [a, b, c, d], conditional, exact, midP, fisher, twiceMidP) => {
  const got = table([a, b, c, d])
  expect(ratio(got.oddsRatio.conditional, conditional)).toBeCloseTo(1, 9)
  expect(ratio(got.oddsRatio.interval.lower, exact[0])).toBeCloseTo(1, 9)
  expect(ratio(got.oddsRatio.interval.upper, exact[1])).toBeCloseTo(1, 9)
  expect(ratio(got.oddsRatio.midPInterval.lower, midP[0])).toBeCloseTo(1, 9)
  expect(ratio(got.oddsRatio.midPInterval.upper, midP[1])).toBeCloseTo(1, 9)
  expect(ratio(got.fisherTwoSided, fisher)).toBeCloseTo(1, 9)
  expect(ratio(got.midP, twiceMidP)).toBeCloseTo(1, 9)
})
