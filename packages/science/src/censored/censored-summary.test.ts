import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { censoredSummary } from './censored-summary.ts'
import { lognormalLikelihood, logReadings } from './lognormal-likelihood.ts'
import { type Reading, spanOf } from './reading.ts'

const amount = fc.double({ min: 0.1, max: 1e5, noNaN: true })
const reading: fc.Arbitrary<Reading> = fc.oneof(
  { weight: 3, arbitrary: amount },
  amount.map((below) => ({ below })),
  amount.map((above) => ({ above })),
  amount.map((low) => ({ between: [low, low * 3] as [number, number] })),
)
const left = fc.oneof(
  { weight: 2, arbitrary: fc.constantFrom(2, 3, 5, 8, 20, 40) },
  fc.constantFrom(1, 4, 10).map((below) => ({ below })),
)
const run = (values: Reading[]) =>
  censoredSummary({ values, quantiles: [0.1, 0.5, 0.9], plottingConstant: 0, level: 0.95 })
const times = (factor: number, value: Reading): Reading => {
  if (typeof value === 'number') return value * factor
  if ('below' in value) return { below: value.below * factor }
  if ('above' in value) return { above: value.above * factor }
  return { between: [value.between[0] * factor, value.between[1] * factor] }
}

test('the fit is the top of the likelihood, found slowly by a scan around it', () => {
  fc.assert(
    fc.property(fc.array(reading, { minLength: 3, maxLength: 25 }), (values) => {
      const { mle } = run(values)
      fc.pre(mle !== undefined)
      // In the unit of their own middle, where nearly equal readings keep their digits.
      const own = 1 / Math.exp(mle.meanLog)
      const readings = logReadings(values.map((value) => spanOf(times(own, value))))
      const at = (meanLog: number, sdLog: number) =>
        lognormalLikelihood(readings, { theta: 1 / sdLog, eta: meanLog / sdLog }).logLikelihood
      const top = at(0, mle.sdLog)
      for (let i = -6; i <= 6; i++)
        for (let j = -6; j <= 6; j++)
          expect(at(0.05 * i * mle.sdLog, mle.sdLog * 1.05 ** j)).toBeLessThanOrEqual(
            top + 1e-8 * Math.max(1, Math.abs(top)),
          )
    }),
    { numRuns: 40 },
  )
})

test('slope and curvature are those of differences', () => {
  const readings = logReadings(
    [3, 50, { below: 10 }, { above: 200 }, { between: [5, 9] as [number, number] }].map(spanOf),
  )
  const at = (theta: number, eta: number) => lognormalLikelihood(readings, { theta, eta })
  const [t, e, h] = [0.8, 2.1, 1e-5]
  const { slope, curvature } = at(t, e)
  expect(slope[0]).toBeCloseTo((at(t + h, e).logLikelihood - at(t - h, e).logLikelihood) / (2 * h), 6)
  expect(slope[1]).toBeCloseTo((at(t, e + h).logLikelihood - at(t, e - h).logLikelihood) / (2 * h), 6)
  expect(curvature[0]).toBeCloseTo((at(t + h, e).slope[0] - at(t - h, e).slope[0]) / (2 * h), 5)
  expect(curvature[1]).toBeCloseTo((at(t, e + h).slope[0] - at(t, e - h).slope[0]) / (2 * h), 5)
  expect(curvature[2]).toBeCloseTo((at(t, e + h).slope[1] - at(t, e - h).slope[1]) / (2 * h), 5)
})

test('another unit and another order of readings change the unit only', () => {
  fc.assert(
    fc.property(fc.array(left, { minLength: 4, maxLength: 25 }), (values) => {
      const one = run(values)
      const other = run(values.map((each) => times(1000, each)).toReversed())
      const pairs = [
        [one.mle?.mean, other.mle?.mean],
        [one.mle?.interval.lower, other.mle?.interval.lower],
        [one.kaplanMeier?.mean, other.kaplanMeier?.mean],
        [one.kaplanMeier?.median, other.kaplanMeier?.median],
        [one.orderStatistics?.sd, other.orderStatistics?.sd],
        [one.orderStatistics?.quantiles[0]?.value, other.orderStatistics?.quantiles[0]?.value],
      ]
      for (const [a = 0, b = 0] of pairs) expect(Math.abs(b - 1000 * a)).toBeLessThanOrEqual(2e-6 * 1000 * a)
      expect(other.leftOut).toEqual(one.leftOut)
    }),
    { numRuns: 40 },
  )
})

test('without a limit in play all three describe the same values', () => {
  const { mle, kaplanMeier, orderStatistics } = run([1, 10, 100])
  expect(mle?.geometricMean).toBeCloseTo(10, 10)
  expect(mle?.sdLog).toBeCloseTo(Math.log(10) * Math.sqrt(2 / 3), 10)
  expect(kaplanMeier?.mean).toBeCloseTo(37, 10)
  expect(kaplanMeier).toMatchObject({ median: 10, restricted: false })
  expect(orderStatistics).toMatchObject({ mean: 37, median: 10 })
})

test('a method without an answer says why', () => {
  expect(run([{ below: 10 }, { below: 20 }])).toMatchObject({
    readings: 2,
    censored: 2,
    leftOut: [{ method: 'mle' }, { method: 'kaplanMeier' }, { method: 'orderStatistics' }],
  })
  expect(run([{ below: 1 }, { above: 10 }]).leftOut[0]).toEqual({
    method: 'mle',
    reason: 'no reading is closed on both sides',
  })
  expect(run([5, 5, { below: 10 }]).mle).toBeUndefined()
  expect(run([5, 8, { above: 10 }]).leftOut).toEqual([
    { method: 'orderStatistics', reason: 'it takes values and "below" only' },
  ])
  expect(run([{ below: 5 }, { above: 10 }]).kaplanMeier).toBeUndefined()
})

test('a mean that rests on the tail of the curve is said to, and one within the readings is not', () => {
  const cautions = (values: unknown) => {
    const answer = runCalculation({ id: 'censored-summary', input: { values } })
    return 'cautions' in answer ? answer.cautions.join(' ') : ''
  }
  const hidden = Array.from({ length: 18 }, () => ({ below: 10 }))
  expect(cautions([...hidden, 35, 900])).toContain('tail of the fitted curve')
  expect(cautions([20, 30, 40, 60, 90, 110, { below: 25 }])).not.toContain('tail of the fitted curve')
})

test('extreme readings are answered in finite numbers or refused', () => {
  const answer = (values: unknown) => runCalculation({ id: 'censored-summary', input: { values } })
  expect(answer([1e-9, 1e12, { below: 1e12 }, { above: 1e-9 }])).toHaveProperty('result')
  expect(
    answer(Array.from({ length: 5000 }, (_, i) => (i % 3 === 0 ? { below: 10 + (i % 7) } : 1 + (i % 101)))),
  ).toHaveProperty('result')
  expect(answer([0])).toMatchObject({ issues: [{ path: 'values.0' }] })
  expect(answer([{ between: [5, 5] }])).toMatchObject({
    issues: [{ path: 'values.0.between.1', expected: 'more than 5' }],
  })
  expect(answer([])).toMatchObject({ issues: [{ path: 'values' }] })
})
