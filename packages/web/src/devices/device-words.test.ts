import { expect, test } from 'vitest'
import { leftWords, seenWords } from './device-words.ts'

test.each([
  [-1, undefined],
  [0, undefined],
  [1, '0:01'],
  [59_000, '0:59'],
  [14 * 60_000 + 32_000, '14:32'],
  [3_599_500, '1 h 0 min'],
  [5_400_000, '1 h 30 min'],
  [86_400_000, '24 h'],
] as const)('[OFF11] an invitation with %i ms left is said to be good for %s', (leftMs, words) => {
  expect(leftWords(leftMs)).toBe(words)
})

test('when a device was last heard of is told the nearer the plainer', () => {
  const nowMs = Date.parse('2026-03-04T12:00:00.000Z')
  const words = (seen?: string) =>
    seenWords(seen === undefined ? {} : { seen }, { nowMs, moment: (at) => at.slice(0, 10) })
  expect(words()).toBe('not yet')
  expect(words('2026-03-04T11:59:00.000Z')).toBe('just now')
  expect(words('2026-03-04T11:31:00.000Z')).toBe('29 min ago')
  expect(words('2026-03-03T11:31:00.000Z')).toBe('2026-03-03')
})
