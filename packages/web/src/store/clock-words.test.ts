import { expect, test } from 'vitest'
import { clockWords } from './clock-words.ts'

test.each([
  [0, ''],
  [59, ''],
  [-59, ''],
  [60, 'This device’s clock is 1 min ahead'],
  [-150, 'This device’s clock is 3 min behind'],
  [3600, 'This device’s clock is 1 h ahead'],
  [-5400, 'This device’s clock is 1 h 30 min behind'],
  [86_400, 'This device’s clock is 1 d ahead'],
  [90_000, 'This device’s clock is 1 d 1 h ahead'],
])('[SYN19] %d seconds ahead reads: %s', (aheadS, words) => {
  expect(clockWords(aheadS)).toBe(words)
})
