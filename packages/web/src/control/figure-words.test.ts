import { expect, test } from 'vitest'
import { figureWords } from './figure-words.ts'

test.each([
  [10.7644, 'L', '10.8 L'],
  [0.05, 'kg', '50 g'],
  [2.4, 'kg', '2.4 kg'],
  [31.4159, 's', '31.4 s'],
  [300, 's', '5 min'],
  [6344.6, '', '6345'],
  [{ lower: 0.27, upper: 2.2299 }, 'kg', '0.27 to 2.23 kg'],
  ['field dose', undefined, 'field dose'],
  [[1, 2], '', undefined],
])('%j in %s is %s', (value, unit, words) => {
  expect(figureWords(value, unit)).toBe(words)
})
