import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays, addMonths, daysBetween, laterOf } from './iso-date.ts'

describe('addMonths', () => {
  it.each([
    ['2026-01-31', 1, '2026-02-28'],
    ['2026-01-31', 2, '2026-03-31'],
    ['2028-01-31', 1, '2028-02-29'],
    ['2026-11-30', 3, '2027-02-28'],
    ['2026-03-31', -1, '2026-02-28'],
    ['2026-12-15', 1, '2027-01-15'],
    ['2026-01-15', -1, '2025-12-15'],
  ])('[UNI6] %s and %d months is %s', (date, months, want) => {
    expect(addMonths(date, months)).toBe(want)
  })

  it('[UNI6] never leaves the month it aims at', () => {
    const day = fc.integer({ min: 0, max: 40_000 }).map((days) => addDays('1990-01-01', days))
    fc.assert(
      fc.property(day, fc.integer({ min: -600, max: 600 }), (date, months) => {
        const monthOf = (iso: string): number => Number(iso.slice(0, 4)) * 12 + Number(iso.slice(5, 7))
        expect(monthOf(addMonths(date, months)) - monthOf(date)).toBe(months)
      }),
    )
  })
})

describe('addDays and daysBetween', () => {
  it.each([
    ['2028-02-28', 1, '2028-02-29'],
    ['2026-03-28', 3, '2026-03-31'],
    ['2026-10-24', 2, '2026-10-26'],
    ['2026-01-01', -1, '2025-12-31'],
  ])('%s and %d days is %s', (date, days, want) => {
    expect(addDays(date, days)).toBe(want)
    expect(daysBetween(date, want)).toBe(days)
  })

  it('refuses a date that does not exist', () => {
    for (const date of ['2026-02-29', '2026-13-01', '2026-1-1', 'tomorrow'])
      expect(() => addDays(date, 1)).toThrow(RangeError)
  })

  it('tells the later date', () => {
    expect(laterOf('2026-09-30', '2026-10-01')).toBe('2026-10-01')
  })
})
