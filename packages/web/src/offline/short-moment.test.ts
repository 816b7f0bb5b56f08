import { expect, test } from 'vitest'
import { shortMoment } from './short-moment.ts'

test('today is told by the time of day, any other day with its date, on the clock of this device', () => {
  const now = new Date(2026, 2, 4, 16, 30)
  expect(shortMoment(new Date(2026, 2, 4, 9, 5).toISOString(), now)).toBe('09:05')
  expect(shortMoment(new Date(2026, 2, 3, 23, 59).toISOString(), now)).toBe('2026-03-03 23:59')
})
