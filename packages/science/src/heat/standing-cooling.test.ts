import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { spanToReach, temperatureAfter } from './approach.ts'
import { type StandingCoolingInput, standingCooling } from './standing-cooling.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const stands: fc.Arbitrary<StandingCoolingInput> = fc
  .record({
    boreMm: real(8, 100),
    wallMm: real(0.5, 5),
    material: fc.constantFrom('copper', 'steel', 'pex'),
    insulationMm: fc.oneof(fc.constant(0), real(1, 60)),
    insulationConductivityWPerMK: real(0.02, 0.1),
    surfaceEmissivity: real(0.05, 1),
    startC: real(0, 100),
    ambientC: real(0, 80),
    minutes: real(0, 3000),
    thresholdsC: fc.constant<number[]>([]),
  })
  .map(({ wallMm, ...rest }) => ({ ...rest, outsideDiameterMm: rest.boreMm + 2 * wallMm }))
const copper: StandingCoolingInput = {
  boreMm: 20,
  outsideDiameterMm: 22,
  material: 'copper',
  insulationMm: 13,
  insulationConductivityWPerMK: 0.04,
  surfaceEmissivity: 0.9,
  startC: 60,
  ambientC: 22,
  minutes: 0,
  thresholdsC: [],
}

/** Cold water in a thin bare pipe in a hot room: steps twice as long missed it by more than 5e-5 K. */
const FOUND_ONCE: [Parameters<typeof standingCooling>[0], number] = [
  {
    boreMm: 8,
    outsideDiameterMm: 9,
    material: 'copper',
    insulationMm: 0,
    insulationConductivityWPerMK: 0.02,
    surfaceEmissivity: 0.05,
    startC: 0,
    ambientC: 67.57852878843202,
    minutes: 0,
    thresholdsC: [],
  },
  0.7065189547283719,
]

test('the time to a temperature and the temperature at that time are inverses', () => {
  fc.assert(
    fc.property(stands, real(0.001, 0.999), (input, part) => {
      const target = input.ambientC + (input.startC - input.ambientC) * part
      const { minutesToC } = standingCooling({ ...input, thresholdsC: [target] })
      // Where the two are so near that the target is no number between them, the start is as good as the target.
      const minutes = minutesToC[0]?.minutes ?? 0
      expect(standingCooling({ ...input, minutes }).temperatureC).toBeCloseTo(target, 4)
    }),
    { examples: [FOUND_ONCE] },
  )
})

test('standing on from where it has come to is standing all the time', () => {
  fc.assert(
    fc.property(stands, real(0, 1), (input, part) => {
      const first = standingCooling({ ...input, minutes: input.minutes * part }).temperatureC
      const rest = standingCooling({ ...input, startC: first, minutes: input.minutes * (1 - part) }).temperatureC
      expect(rest).toBeCloseTo(standingCooling(input).temperatureC, 4)
    }),
  )
})

test('a slow march of the same balance by tiny steps gives the same', () => {
  const { heatJPerMK } = standingCooling(copper)
  let temperatureC = 60
  for (let second = 0; second < 7200; second += 2) {
    const now = standingCooling({ ...copper, startC: temperatureC })
    temperatureC -= (2 * now.lossAtStartWPerMK * (temperatureC - 22)) / now.heatJPerMK
  }
  expect(heatJPerMK).toBeGreaterThan(1500)
  // Euler's error over 3600 steps is of this order.
  expect(standingCooling({ ...copper, minutes: 120 }).temperatureC).toBeCloseTo(temperatureC, 1)
})

test('where the coefficient does not change, the difference falls exponentially', () => {
  fc.assert(
    fc.property(real(1, 99), real(0, 60), real(1e-4, 10), real(0, 50), (startC, ambientC, perMinute, folds) => {
      const approach = { startC, ambientC, rate: () => perMinute }
      const exact = ambientC + (startC - ambientC) * Math.exp(-folds)
      expect(temperatureAfter(approach, folds / perMinute)).toBeCloseTo(exact, 6)
    }),
  )
})

test('longer standing, colder air and less insulation leave hot water colder', () => {
  const after = (odd: Partial<StandingCoolingInput>) => standingCooling({ ...copper, minutes: 60, ...odd }).temperatureC
  expect(after({ minutes: 61 })).toBeLessThan(after({}))
  expect(after({ ambientC: 10 })).toBeLessThan(after({}))
  expect(after({ insulationMm: 0 })).toBeLessThan(after({}))
  expect(after({ boreMm: 26, outsideDiameterMm: 28 })).toBeGreaterThan(after({}))
})

test('the ends: no time, equal temperatures, for ever, and what is never reached', () => {
  expect(standingCooling({ ...copper, thresholdsC: [60, 61, 22, 10] })).toMatchObject({
    temperatureC: 60,
    minutesToC: [{ temperatureC: 60, minutes: 0 }, { temperatureC: 61 }, { temperatureC: 22 }, { temperatureC: 10 }],
  })
  const level = standingCooling({ ...copper, startC: 22, minutes: 100, thresholdsC: [22, 23] })
  expect(level).toMatchObject({ temperatureC: 22, minutesToC: [{ minutes: 0 }, { temperatureC: 23 }] })
  expect(level.minutesToHalfDifference).toBeUndefined()
  expect(standingCooling({ ...copper, minutes: 1e12 }).temperatureC).toBe(22)
  expect(spanToReach({ startC: 60, ambientC: 20, rate: () => 1 }, 19)).toBeUndefined()
})

test('a bore as wide as the pipe is refused at the outside diameter', () => {
  const input = { ...copper, boreMm: 22 }
  expect(runCalculation({ id: 'standing-cooling', input })).toEqual({
    issues: [{ path: 'outsideDiameterMm', expected: 'more than the bore, 22', received: '22' }],
  })
})

test('it says how the air moves, at the start and at the end', () => {
  const wide = { ...copper, boreMm: 900, outsideDiameterMm: 1000, insulationMm: 0 }
  expect(standingCooling({ ...wide, minutes: 1e12 })).toMatchObject({
    regimeAtStart: 'turbulent',
    regimeAtEnd: 'still',
  })
  expect(standingCooling(copper)).toMatchObject({ regimeAtStart: 'laminar', regimeAtEnd: 'laminar' })
  expect(standingCooling(copper).surfaceAtStartC).toBeLessThan(60)
})

test('an upright pipe stays warm a little longer', () => {
  const after = (uprightHeightM?: number) => standingCooling({ ...copper, minutes: 60, uprightHeightM }).temperatureC
  expect(after(3)).toBeGreaterThan(after())
  expect(after(3) - after()).toBeLessThan(1)
})
