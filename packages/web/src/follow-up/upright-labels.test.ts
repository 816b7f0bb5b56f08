import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { placeUprights, type PlacedUpright, wordsSpan } from './upright-labels.ts'

const WIDTH = 780
const SEED = 20261130

const placed = (...uprights: [number, string][]) =>
  placeUprights(
    uprights.map(([x, words]) => ({ x, words })),
    WIDTH,
  ).map(({ row, side }) => `${row} ${side}`)

test('words go to the right of their line and into one row while there is room', () => {
  expect(placed([100, 'today'], [300, 'remediated'], [600, 'restart: positive'])).toEqual([
    '0 right',
    '0 right',
    '0 right',
  ])
})

test('words that would run into a line or other words go to the other side of their own line, or lower, or its line begins lower', () => {
  expect(placed([200, 'today'], [150, 'restart: positive'])).toEqual(['0 right', '0 left'])
  expect(placed([200, 'today'], [60, 'remediated'], [150, 'restart: positive'])).toEqual([
    '0 right',
    '1 right',
    '0 left',
  ])
})

test('words at the right edge stand to the left of their line', () => {
  expect(placed([WIDTH - 10, 'today'])).toEqual(['0 left'])
})

/** Lines every so often and words of the lengths there are; far more of them than an investigation has. */
test('no words touch other words or a line, whatever the days, while a free place exists', () => {
  const upright = fc.record({
    x: fc.integer({ min: 0, max: WIDTH }),
    words: fc.constantFrom('today', 'remediated', 'restart: positive'),
  })
  const touching = (all: readonly PlacedUpright[]): string[] =>
    all.flatMap((one) => {
      const [from, to] = wordsSpan(one)
      return all.flatMap((other) => {
        if (one === other) return []
        const [first, last] = wordsSpan(other)
        const words = one.row === other.row && from < last && first < to
        const line = other.row <= one.row && other.upright.x > from && other.upright.x < to
        return words || line ? [`${one.upright.words} at ${one.upright.x} and ${other.upright.x}`] : []
      })
    })
  fc.assert(
    fc.property(fc.uniqueArray(upright, { maxLength: 6, selector: ({ x }) => Math.round(x / 60) }), (uprights) => {
      expect(touching(placeUprights(uprights, WIDTH))).toEqual([])
    }),
    { seed: SEED },
  )
})
