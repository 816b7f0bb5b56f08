import { expect, test } from 'vitest'
import { likelihoodCurve, meanLikelihood } from './likelihood-curve.ts'

const bell = (mean: number, sd: number) => (t: number) => -(((t - mean) / sd) ** 2) / 2
const LOG_ROOT_TWO_PI = Math.log(2 * Math.PI) / 2
const Z = 1.959963984540054
const drop = Z ** 2 / 2

test.each([
  [-5, 1],
  [-700, 3],
  [-0.3, 1e-4],
])('a bell about %d of width %d: top, limits, integral and quantiles are known', (mean, sd) => {
  const curve = likelihoodCurve(bell(mean, sd), { stretches: [{ from: Number.NEGATIVE_INFINITY, to: 100 * sd }], drop })
  expect((curve.at - mean) / sd).toBeCloseTo(0, 4)
  expect(((curve.supported[0]?.from ?? 0) - mean) / sd).toBeCloseTo(-Z, 6)
  expect(((curve.supported[0]?.to ?? 0) - mean) / sd).toBeCloseTo(Z, 6)
  expect(curve.logIntegral - Math.log(sd)).toBeCloseTo(LOG_ROOT_TWO_PI, 8)
  expect((curve.quantile(0.025) - mean) / sd).toBeCloseTo(-Z, 5)
  expect(curve.shareUpTo(mean + sd)).toBeCloseTo(0.8413447460685429, 7)
})

test('two hills are both found, apart, whichever is higher', () => {
  const both = meanLikelihood([bell(-40, 1), bell(-10, 0.5)])
  const { supported, logIntegral } = likelihoodCurve(both, { stretches: [{ from: -200, to: 0 }], drop })
  expect(supported).toHaveLength(2)
  expect(logIntegral).toBeCloseTo(LOG_ROOT_TWO_PI + Math.log(0.75), 7)
})

test('pieces that do not touch stay apart; ends that are supported are the limits', () => {
  const { supported, at } = likelihoodCurve(bell(0, 5), {
    stretches: [
      { from: -4, to: -3 },
      { from: 1, to: 2 },
    ],
    drop,
  })
  expect(supported).toEqual([
    { from: -4, to: -3 },
    { from: 1, to: 2 },
  ])
  expect(at).toBeCloseTo(1, 6)
})

test('nothing possible is said', () => {
  expect(() => likelihoodCurve(() => Number.NEGATIVE_INFINITY, { stretches: [{ from: 0, to: 1 }], drop })).toThrow(
    RangeError,
  )
})
