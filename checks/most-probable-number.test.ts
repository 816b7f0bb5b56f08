// Published most probable numbers, held to the figures they print; the rows' `from` say where each was read.
import { mostProbableNumber } from '@rillmark/science/quantal/most-probable-number.ts'
import { expect, test } from 'vitest'
import { type From, hold } from './rows.ts'

const MANUAL: From =
  'seen: FDA Bacteriological Analytical Manual, Appendix 2, as quoted in the tests of the R package MPN'
const BLODGETT: From = 'seen: Blodgett 2002, Table 1, and his odd designs, as quoted in the tests of the R package MPN'
const HAAS: From = 'seen: Haas, Rose and Gerba 2014, example 6.4, as quoted in the tests of the R package MPN'
const RIDOUT: From = 'seen: Ridout 1994, likelihood-ratio limits, as quoted in the tests of the R package MPN'
const JARVIS: From = 'seen: Jarvis et al. 2010, Tables 1 and 2, as quoted in the tests of the R package MPN'
const DIGITS: From = 'computed: 30-digit arithmetic in Python'
const AS_PRINTED = 'rounded to the figures printed'

interface Design {
  volumes: readonly number[]
  tubes: readonly number[]
}
const solve = (
  { volumes, tubes }: Design,
  positives: readonly number[],
  information: 'observed' | 'expected' = 'observed',
) =>
  mostProbableNumber({
    wells: volumes.map((volumeMl, i) => ({ volumeMl, inoculated: tubes[i] ?? 0, positive: positives[i] ?? 0 })),
    information,
    level: 0.95,
  })
const each = (n: number): Design => ({ volumes: [0.1, 0.01, 0.001], tubes: [n, n, n] })
const figures = (value: number | undefined, count: number) => Number((value ?? Number.NaN).toPrecision(count))

const PRINTED = [
  // design, positives, printed, figures printed, from
  [each(3), [0, 0, 1], 3, 2, MANUAL],
  [each(3), [1, 1, 1], 11, 2, MANUAL],
  [each(3), [2, 2, 0], 21, 2, MANUAL],
  [each(3), [3, 3, 2], 1100, 2, MANUAL],
  [each(5), [0, 0, 1], 1.8, 2, MANUAL],
  [each(5), [1, 2, 0], 6.1, 2, MANUAL],
  [each(5), [4, 0, 2], 21, 2, MANUAL],
  [each(5), [5, 5, 4], 1600, 2, BLODGETT],
  [each(10), [0, 0, 1], 0.9, 1, MANUAL],
  [each(10), [3, 2, 2], 7.5, 2, MANUAL],
  [each(10), [8, 2, 0], 17, 2, MANUAL],
  [each(10), [10, 10, 9], 2300, 2, MANUAL],
  [{ volumes: [10], tubes: [10] }, [1], 0.011, 2, MANUAL],
  [{ volumes: [10], tubes: [10] }, [5], 0.069, 2, MANUAL],
  [{ volumes: [10], tubes: [10] }, [9], 0.23, 2, MANUAL],
  [{ volumes: [1, 0.1], tubes: [5, 5] }, [1, 5], 1.29, 3, BLODGETT],
  [{ volumes: [1, 0.1], tubes: [5, 5] }, [2, 4], 1.48, 3, BLODGETT],
  [{ volumes: [1, 0.1], tubes: [5, 5] }, [3, 3], 1.75, 3, BLODGETT],
  [{ volumes: [1, 0.1], tubes: [5, 5] }, [4, 2], 2.21, 3, BLODGETT],
  [{ volumes: [1, 0.1], tubes: [5, 5] }, [5, 1], 3.48, 3, BLODGETT],
  [{ volumes: [10, 1, 0.1], tubes: [5, 5, 5] }, [5, 3, 0], 0.792, 3, HAAS],
  [{ volumes: [0.1, 0.01, 0.001], tubes: [5, 5, 4] }, [4, 2, 2], 31.918, 5, BLODGETT],
  [{ volumes: [0.1, 0.01, 0.001], tubes: [7, 5, 7] }, [3, 0, 2], 8.549, 4, BLODGETT],
  [{ volumes: [0.1, 0.01, 0.001], tubes: [9, 3, 4] }, [2, 3, 4], 11.274, 5, BLODGETT],
] as const
for (const [design, positives, printed, count, from] of PRINTED)
  hold(
    [
      [
        `${positives.join('-')} of ${design.tubes.join('-')} at ${design.volumes.join(', ')} mL`,
        positives,
        printed,
        0,
        AS_PRINTED,
        from,
      ],
    ],
    (each) => figures(solve(design, each).mpnPerMl, count),
  )

const LIMITS = [
  // positives of three tubes, Ridout's limits as printed
  [[1, 0, 0], 0.2, 16.0],
  [[1, 1, 0], 1.2, 23.3],
  [[2, 0, 0], 1.5, 30.6],
  [[2, 0, 1], 3.4, 40.5],
  [[2, 1, 0], 3.5, 41.8],
  [[2, 2, 0], 6.2, 54.3],
  [[3, 0, 0], 4.9, 90.8],
  [[3, 0, 1], 9.3, 139.1],
  [[3, 1, 0], 9.8, 164.7],
  [[3, 1, 1], 17.5, 235.4],
  [[3, 2, 0], 19.8, 311.0],
  [[3, 2, 1], 36.8, 425.7],
  [[3, 2, 2], 62.9, 554.8],
  [[3, 3, 0], 51.0, 975.0],
  [[3, 3, 1], 102.5, 1848.5],
  [[3, 3, 2], 218.8, 3784.9],
] as const
hold(
  LIMITS.flatMap(([positives, lower, upper]) =>
    (['lower', 'upper'] as const).map((side) => {
      const printed = side === 'lower' ? lower : upper
      return [
        `${side} likelihood-ratio limit of ${positives.join('-')}`,
        { positives, side },
        printed,
        0.05 + 0.001 * printed,
        'printed to one decimal, and up to one part in a thousand off the 30-digit values',
        RIDOUT,
      ] as const
    }),
  ),
  ({ positives, side }) => solve(each(3), positives).interval.profileLikelihood[side],
)

test('where all tubes agree: one-sided 95 % (Ridout 1994) and 97.5 % (Jarvis et al. 2010) limits: seen, as quoted in the R package MPN', () => {
  const [none, all] = [solve(each(3), [0, 0, 0]), solve(each(3), [3, 3, 3])]
  expect(none).toMatchObject({ mpnPerMl: 0, outcome: 'all negative' })
  expect(figures(none.interval.profileLikelihood.upper, 2)).toBe(9.0)
  expect(figures(none.interval.cox.upper, 2)).toBe(11)
  expect(all.mpnPerMl).toBeUndefined()
  expect(figures(all.interval.profileLikelihood.lower, 4)).toBe(465.1)
  expect(figures(all.interval.cox.lower, 2)).toBe(360)
  expect(all.interval.cox.upper).toBeUndefined()
})

const TABLES = [
  // design, positives of tubes, MPN, limits and rarity index as printed
  [{ volumes: [1, 0.1, 0.01], tubes: [3, 3, 3] }, [2, 2, 0], 2.1, 0.71, 6.2, 0.069],
  [{ volumes: [1, 0.1, 0.01], tubes: [3, 3, 3] }, [3, 1, 1], 7.5, 1.9, 30, 0.209],
  [{ volumes: [2, 0.2, 0.02], tubes: [50, 49, 49] }, [50, 34, 7], 6.2, 4.5, 8.6, 0.746],
] as const
for (const [design, positives, mpn, lower, upper, rarity] of TABLES) {
  const name = `${positives.join('-')} of ${design.tubes.join('-')}`
  hold([[`${name}: number and rarity`, positives, [mpn, rarity], 0, AS_PRINTED, JARVIS]], (given) => {
    const got = solve(design, given)
    return [figures(got.mpnPerMl, 2), Number(got.rarityIndex.toFixed(3))]
  })
  hold(
    [
      [
        `${name}: limits`,
        positives,
        [lower, upper],
        { share: 0.03 },
        'printed to two figures from a rounded standard error',
        JARVIS,
      ],
    ],
    (given) => {
      const { cox } = solve(design, given).interval
      return [cox.lower, cox.upper]
    },
  )
}

test('the solver sheet of FDA and AOAC, 2002 (seen): 5-3-0 of ten tubes, with either information; the number: 30 digits, computed', () => {
  const got = solve(each(10), [5, 3, 0])
  expect((got.mpnPerMl ?? 0) / 9.9507655435).toBeCloseTo(1, 9)
  expect(got.standardErrorLog10?.observed).toBeCloseTo(0.1575, 4)
  expect(got.standardErrorLog10?.expected).toBeCloseTo(0.1659, 4)
  expect(got.rarityIndex).toBeCloseTo(0.0925, 4)
  // The sheet prints 4.891 to 20.263 from a standard error of four figures.
  expect(got.interval.cox.lower).toBeCloseTo(4.8886, 3)
  expect(got.interval.cox.upper).toBeCloseTo(20.2547, 3)
  const expected = solve(each(10), [5, 3, 0], 'expected').interval.cox
  expect(expected.lower).toBeCloseTo(4.71, 2)
  expect(expected.upper).toBeCloseTo(21.04, 2)
})

const EQUAL_WELLS = [
  // 51 wells sharing 100 mL: positive, MPN per mL, likelihood-ratio limits per mL
  [1, 1.0099339921 / 100, 0.0005762487767, 0.04447006932],
  [25, 34.36018383 / 100, 0.2244461672, 0.5006759056],
  [50, 200.52310727 / 100, 1.266266602, 3.460957629],
] as const
hold(
  EQUAL_WELLS.map(
    ([positive, mpnPerMl, lower, upper]) =>
      [
        `51 equal wells, ${positive} positive`,
        positive,
        [mpnPerMl, lower, upper],
        { share: 1e-9 },
        'printed to ten figures',
        DIGITS,
      ] as const,
  ),
  (positive) => {
    const got = solve({ volumes: [100 / 51], tubes: [51] }, [positive])
    const { lower, upper } = got.interval.profileLikelihood
    return [got.mpnPerMl, lower, upper]
  },
)

test('the tray of 51: 200.5 per 100 mL at 50, and 146.1 at least where all are positive, as a public data description prints (seen)', () => {
  const tray = { volumes: [100 / 51], tubes: [51] }
  expect(((solve(tray, [50]).mpnPerMl ?? 0) * 100).toFixed(1)).toBe('200.5')
  expect(((solve(tray, [51]).interval.profileLikelihood.lower ?? 0) * 100).toFixed(1)).toBe('146.1')
})
