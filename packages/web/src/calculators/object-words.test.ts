import { expect, test } from 'vitest'
import { namedTable, objectWords } from './object-words.ts'

const words = (value: unknown): string =>
  typeof value === 'object' && value !== null ? objectWords(value, words) : String(value)

test.each([
  [{ below: 100 }, 'below 100'],
  [{ between: [1, 5] }, 'between 1 and 5'],
  [{ lower: 1.2, upper: 3.4 }, '1.2 to 3.4'],
  [[0, 3, 5], '(0, 3, 5)'],
  [{ lower: 1.2 }, 'from 1.2, no finite upper limit'],
  [{ upper: 3.4 }, 'up to 3.4, no finite lower limit'],
  [{ kind: 'a', volumeL: 2 }, 'kind a, volume l 2'],
])('%j reads %s', (value, want) => {
  expect(objectWords(value, words).toLowerCase()).toBe(want)
})

test('values under names of their own are a line each', () => {
  const table = namedTable({ intercept: { estimate: -1, interval: { lower: -2 } }, age: { estimate: 0.5 } }, words)
  expect(table?.columns.map(({ label }) => label)).toEqual(['Name', 'Estimate', 'Interval'])
  expect(table?.rows).toEqual([
    ['intercept', '-1', 'from -2, no finite upper limit'],
    ['age', '0.5', 'undefined'],
  ])
  expect(namedTable({ a: 1 }, words)).toBeUndefined()
  expect(namedTable([1], words)).toBeUndefined()
})
