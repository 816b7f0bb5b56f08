import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays } from '../calendar/iso-date.ts'
import { incubation, incubationCdf } from './incubation.ts'

test.each([
  ['2-10', '2026-03-05', '2026-03-13'],
  ['0-14', '2026-03-01', '2026-03-15'],
  ['1-14', '2026-03-01', '2026-03-14'],
  ['2-14', '2026-03-01', '2026-03-13'],
])('window %s', (definition, from, to) => {
  expect(incubation({ onsetDate: '2026-03-15', definition, model: 'gamma-a' }).window).toEqual({ from, to })
})

test('a window over the end of February keeps the calendar', () => {
  const { window } = incubation({ onsetDate: '2024-03-05', definition: '2-10', model: 'gamma-a' })
  expect(window).toEqual({ from: '2024-02-24', to: '2024-03-03' })
})

test('another onset shifts the dates and nothing else', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 40_000 }),
      fc.constantFrom('gamma-a', 'gamma-b', 'gamma-c'),
      (days, model) => {
        const input = { definition: '2-10', model }
        const one = incubation({ ...input, onsetDate: '2026-03-15' })
        const other = incubation({ ...input, onsetDate: addDays('2026-03-15', -days) })
        expect(other.density.map((day) => day.density)).toEqual(one.density.map((day) => day.density))
        expect(other.window.from).toBe(addDays(one.window.from, -days))
      },
    ),
  )
})

test('days add up to nearly all, and a longer window holds more', () => {
  const share = (definition: string) => incubation({ onsetDate: '2026-03-15', definition, model: 'gamma-b' })
  const total = share('0-14').density.reduce((sum, day) => sum + day.density, 0)
  expect(total).toBeGreaterThan(0.99)
  expect(total).toBeLessThan(1)
  expect(share('2-10').shareInWindow).toBeLessThan(share('2-14').shareInWindow)
  expect(share('2-14').shareInWindow).toBeLessThan(share('0-14').shareInWindow)
})

test('an unknown definition, model or date is refused', () => {
  const input = { onsetDate: '2026-03-15', definition: '2-10', model: 'gamma-a' }
  expect(() => incubation({ ...input, definition: '3-9' })).toThrow(RangeError)
  expect(() => incubationCdf('burr')).toThrow(RangeError)
  expect(() => incubation({ ...input, onsetDate: 'spring' })).toThrow(RangeError)
})
