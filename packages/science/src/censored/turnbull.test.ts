import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { kaplanMeier } from './kaplan-meier.ts'
import { leftCensored, type Span } from './reading.ts'
import { turnbull } from './turnbull.ts'

const whole = fc.integer({ min: 1, max: 30 })
const value = whole.map((low): Span => ({ low, high: low }))
const below = whole.map((high): Span => ({ low: 0, high }))
const above = whole.map((low): Span => ({ low, high: Number.POSITIVE_INFINITY }))
const between = fc.tuple(whole, whole).map(([low, width]): Span => ({ low, high: low + width }))
const readings = fc.array(fc.oneof(value, below, above, between), { minLength: 1, maxLength: 30 })

/** Whether a span could hold the reading: by any of its points, here its middle. */
function holds(reading: Span, { low, high }: Span): boolean {
  const at = low === high ? low : high === Number.POSITIVE_INFINITY ? low + 0.5 : (low + high) / 2
  if (reading.low === reading.high) return at === reading.low && low === high
  return reading.high === Number.POSITIVE_INFINITY ? at > reading.low : at >= reading.low && at < reading.high
}

test('no place, taken or not, would make the readings likelier: the proof of the top', () => {
  fc.assert(
    fc.property(readings, (spans) => {
      const portions = turnbull(spans)
      expect(portions.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(1, 9)
      const held = spans.map((reading) =>
        portions.reduce((sum, portion) => sum + (holds(reading, portion) ? portion.mass : 0), 0),
      )
      const pull = (at: Span) =>
        spans.reduce((sum, reading, i) => sum + (holds(reading, at) ? 1 / (held[i] ?? 0) : 0), 0)
      for (const portion of portions.filter(({ mass }) => mass > 1e-6))
        expect(pull(portion) / spans.length).toBeCloseTo(1, 5)
      for (let at = 0.5; at < 62; at += 0.5) expect(pull({ low: at, high: at }) / spans.length).toBeLessThan(1 + 1e-6)
    }),
  )
})

test('with values and "below" alone it is Kaplan and Meier’s', () => {
  fc.assert(
    fc.property(fc.array(fc.oneof(value, below), { minLength: 1, maxLength: 40 }), (spans) => {
      const split = leftCensored(spans) ?? { values: [], limits: [] }
      fc.pre(split.values.length > 0)
      const [one, other] = [turnbull(spans), kaplanMeier(split)]
      expect(one.map(({ low, high }) => [low, high])).toEqual(other.map(({ low, high }) => [low, high]))
      for (const [i, { mass }] of one.entries()) expect(mass).toBeCloseTo(other[i]?.mass ?? Number.NaN, 9)
    }),
  )
})

test.each<[string, Span[], [number, number, number][]]>([
  [
    'bands that touch',
    [
      { low: 1, high: 10 },
      { low: 10, high: 100 },
      { low: 10, high: 10 },
    ],
    [
      [1, 10, 1 / 3],
      [10, 10, 2 / 3],
    ],
  ],
  [
    'a value at the limit it is below',
    [
      { low: 0, high: 10 },
      { low: 10, high: 10 },
    ],
    [
      [0, 10, 0.5],
      [10, 10, 0.5],
    ],
  ],
  [
    'above a value',
    [
      { low: 10, high: 10 },
      { low: 10, high: Number.POSITIVE_INFINITY },
    ],
    [
      [10, 10, 0.5],
      [10, Number.POSITIVE_INFINITY, 0.5],
    ],
  ],
  [
    'bands that overlap',
    [
      { low: 1, high: 10 },
      { low: 5, high: 20 },
    ],
    [[5, 10, 1]],
  ],
])('%s', (_, spans, want) => {
  expect(turnbull(spans).map(({ low, high, mass }) => [low, high, Number(mass.toFixed(9))])).toEqual(
    want.map(([low, high, mass]) => [low, high, Number(mass.toFixed(9))]),
  )
})

test('ten thousand readings that each only say which side of their own limit are settled in bounded time', () => {
  const spans = Array.from({ length: 10_000 }, (_, i): Span => {
    const limit = 1 + ((i * 7919) % 10_007)
    return (i * 104_729) % 10_007 < limit ? { low: 0, high: limit } : { low: limit, high: Number.POSITIVE_INFINITY }
  })
  expect(turnbull(spans).reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(1, 9)
})
