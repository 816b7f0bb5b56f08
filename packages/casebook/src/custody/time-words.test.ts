import { expect, test } from 'vitest'
import { durationWords, leftWords } from './time-words.ts'

const MINUTE_MS = 60_000
test.each([
  [0, '0 min'],
  [59, '59 min'],
  [60, '1 h'],
  [560, '9 h 20 min'],
  [2879, '47 h 59 min'],
  [2880, '2 days'],
  [3120, '2 days 4 h'],
])('%d minutes are %s', (minutes, words) => {
  expect(durationWords(minutes * MINUTE_MS + 59_999)).toBe(words)
})

test('what is over is said as over', () => {
  expect(leftWords(560 * MINUTE_MS, 'hold time')).toBe('9 h 20 min of hold time left')
  expect(leftWords(-65 * MINUTE_MS, 'hold time')).toBe('hold time over since 1 h 5 min')
})
