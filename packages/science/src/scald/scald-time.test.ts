import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { scaldTime } from './scald-time.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

test('hotter never takes longer; a child never longer than an adult; a deeper burn never less', () => {
  fc.assert(
    fc.property(real(45, 99), real(0, 5), (temperatureC, more) => {
      const now = scaldTime({ temperatureC })
      const hotter = scaldTime({ temperatureC: temperatureC + more })
      for (const each of ['secondsAdult', 'secondsChild', 'secondsAdultFullThickness'] as const) {
        expect(hotter[each] ?? Number.NaN).toBeLessThanOrEqual(now[each] ?? Number.NaN)
      }
      expect(now.secondsChild ?? Number.NaN).toBeLessThanOrEqual(now.secondsAdult ?? Number.NaN)
      expect(now.secondsAdultFullThickness ?? Number.NaN).toBeGreaterThanOrEqual(now.secondsAdult ?? Number.NaN)
    }),
  )
})

test('below the table there is no time, and that is called no promise', () => {
  expect(Object.keys(scaldTime({ temperatureC: 44.9 }))).toEqual(['basis'])
  expect(scaldTime({ temperatureC: 20 }).basis).toContain('not a promise')
})

test('above the hottest row the last time stands as an upper limit', () => {
  expect(scaldTime({ temperatureC: 100 })).toMatchObject({ secondsAdult: 1, secondsChild: 0.5 })
  expect(scaldTime({ temperatureC: 80 }).basis).toContain('at most')
})
