import { expect, test } from 'vitest'
import { incubation } from './incubation.ts'
import { shareOfDays } from './share-of-days.ts'

const { density, shareInWindow } = incubation({ onsetDate: '2026-03-15', definition: '2-10', model: 'gamma-a' })
const byDate = new Map(density.map((day) => [day.date, day.density]))

test('the days of the window cover what the calculation says the window covers', () => {
  const days = density.filter(({ inWindow }) => inWindow).map(({ date }) => date)
  expect(shareOfDays(byDate, days)).toBeCloseTo(shareInWindow, 14)
})

test('a day named twice counts once, a day outside counts nothing', () => {
  const once = shareOfDays(byDate, ['2026-03-09'])
  expect(once).toBeGreaterThan(0)
  expect(shareOfDays(byDate, ['2026-03-09', '2026-03-09', '2026-06-01'])).toBe(once)
  expect(shareOfDays(byDate, [])).toBe(0)
})
