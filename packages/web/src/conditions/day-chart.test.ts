import { expect, test } from 'vitest'
import { dayScale, hourlyMeans, stretches } from './day-chart.ts'

const frame = { slots: 96, left: 40, right: 400, height: 100 }

test.each([
  [
    [14, 19],
    [14, 16, 18, 20],
  ],
  [
    [23.4, 58],
    [20, 30, 40, 50, 60],
  ],
  [
    [0.02, 0.38],
    [0, 0.1, 0.2, 0.3, 0.4],
  ],
])('values %j stand between round lines', (values, ticks) => {
  const { y, ticks: found } = dayScale(values, frame)
  expect(found).toEqual(ticks)
  for (const value of values) {
    expect(y(value)).toBeGreaterThanOrEqual(0)
    expect(y(value)).toBeLessThanOrEqual(100)
  }
})

test('a flat curve is not blown up', () => {
  expect(dayScale([22, 22], { ...frame, leastSpread: 8 }).ticks).toEqual([22, 24, 26, 28, 30])
  expect(dayScale([0, 0], { ...frame, leastSpread: 0.1 }).ticks).toEqual([0, 0.05, 0.1])
})

test('the day runs from the left edge to the right, and a scale from nought begins there', () => {
  const { x, ticks } = dayScale([3, 8], { ...frame, fromZero: true })
  expect([x(0), x(48), x(96)]).toEqual([40, 220, 400])
  expect(ticks[0]).toBe(0)
})

test('draws are told as stretches, whichever way the pipe is drawn', () => {
  expect(stretches([0, 2, -2, 0, 0, 1], 0.01)).toEqual([
    { from: 1, to: 3 },
    { from: 5, to: 6 },
  ])
  expect(stretches([0, 0.001], 0.01)).toEqual([])
})

test('the table behind a chart has the mean of every hour', () => {
  const curve = Float32Array.from({ length: 96 }, (_, slot) => slot)
  expect(hourlyMeans(curve)).toHaveLength(24)
  expect(hourlyMeans(curve)[0]).toBe(1.5)
  expect(hourlyMeans(curve)[23]).toBe(93.5)
})
