import { expect, test } from 'vitest'
import { lastDayBegun, localDate, wallClock } from './local-time.ts'

test.each([
  ['2026-03-04T23:30:00.000Z', '+01:00', '2026-03-05 00:30'],
  ['2026-03-04T02:00:00.000Z', '-05:30', '2026-03-03 20:30'],
  ['2026-03-04T12:00:00.000Z', '+00:00', '2026-03-04 12:00'],
])('%s at %s was %s on the wall', (instant, offset, words) => {
  expect(wallClock({ instant, offset })).toBe(words)
  expect(localDate({ instant, offset })).toBe(words.slice(0, 10))
})

test('east of the date line the day after the UTC day has begun; none after it has', () => {
  const instant = '2026-12-31T10:30:00.000Z'
  expect(lastDayBegun(instant)).toBe(localDate({ instant, offset: '+14:00' }))
  expect(lastDayBegun(instant)).toBe('2027-01-01')
})
