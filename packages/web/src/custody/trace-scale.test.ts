import { expect, test } from 'vitest'
import { traceScale } from './trace-scale.ts'

const on = { usualSeconds: 60, range: { lowestC: 2, highestC: 8 }, left: 0, right: 100, height: 100 }
const at = (minutes: number, temperatureC: number) => ({ atMs: minutes * 60_000, temperatureC })

test('the line is broken at gaps, and the range is a band inside the chart', () => {
  const scale = traceScale([at(0, 5), at(1, 6), at(10, 12)], on)
  expect(scale?.lines).toHaveLength(2)
  expect(scale?.coldestC).toBe(5)
  expect(scale?.warmestC).toBe(12)
  expect(scale?.band?.top).toBeCloseTo(scale?.y(8) ?? 0)
  expect(scale?.y(2)).toBeLessThan(100)
  expect(traceScale([], on)).toBeUndefined()
})

test('of many readings the extremes are still drawn', () => {
  const many = Array.from({ length: 20_000 }, (_, minute) => at(minute, minute === 7777 ? 30 : 5))
  const scale = traceScale(many, on)
  const drawn = scale?.lines[0]?.split(' ') ?? []
  expect(drawn.length).toBeLessThan(700)
  expect(drawn.some((point) => Number(point.split(',')[1]) === Number(scale?.y(30).toFixed(1)))).toBe(true)
})
