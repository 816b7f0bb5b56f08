import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { momentOf, offsetOf, readDayOrMoment } from './day-or-moment.ts'

test('a moment written and read again is the same minute, at any offset', () => {
  const minute = fc.integer({ min: -30_000_000, max: 60_000_000 })
  fc.assert(
    fc.property(minute, fc.integer({ min: -840, max: 840 }), (minutes, offset) => {
      const text = momentOf(minutes / 1440, offset)
      expect(offsetOf(text)).toBe(offset)
      expect(Math.round((readDayOrMoment(text, offset)?.from ?? Number.NaN) * 1440)).toBe(minutes)
      expect(Date.parse(text)).toBe((minutes - offset) * 60_000)
    }),
  )
})

test.each([
  '',
  '2026-02-30',
  '2026-3-1',
  '2026-03-01T',
  '2026-03-01T24:00',
  '2026-03-01T12:61',
  '2026-03-01T12:00+15:00',
  'now',
])('%s is no day or moment', (text) => {
  expect(readDayOrMoment(text, 0)).toBeUndefined()
})

test('a day lasts from its midnight to the next', () => {
  expect(readDayOrMoment('1970-01-03', 300)).toEqual({ from: 2, to: 3 })
})
