import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { bulkFactor } from '../chlorine/bulk-factor.ts'
import { growthAfter, makeKinetics, tabled } from './kinetics.ts'
import type { Chemistry } from './network.ts'

const CHLORINE: Chemistry = {
  disinfectant: 'free-chlorine',
  bulkPerHour: 0.02,
  wallMPerHour: 0.001,
  referenceC: 20,
  activationKJPerMol: 65,
  standingSherwood: 3.65,
}
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const waters = fc.record({
  start: real(0, 1),
  hours: real(0, 100),
  temperatureC: real(0, 100),
  residualMgPerL: fc.oneof(fc.constant(0), real(0, 4)),
})

test('a table read between its entries is the law, to within 8 parts in 100,000', () => {
  const { bulkPerHour } = makeKinetics(CHLORINE)
  fc.assert(
    fc.property(real(0, 100), (temperatureC) => {
      const law = CHLORINE.bulkPerHour * bulkFactor({ ...CHLORINE, temperatureC })
      // the chord of an exponential of 0.1 per kelvin over 0.25 K lies at most (0.025)²/8 above it
      expect(Math.abs(tabled(bulkPerHour, temperatureC) / law - 1)).toBeLessThan(8e-5)
    }),
  )
})

test('outside the table its ends hold', () => {
  const { bulkPerHour } = makeKinetics(CHLORINE)
  expect(tabled(bulkPerHour, -5)).toBe(bulkPerHour[0])
  expect(tabled(bulkPerHour, 140)).toBe(tabled(bulkPerHour, 100))
  expect(tabled(bulkPerHour, 100)).toBe(bulkPerHour.at(-1))
})

test('what the water carries stays between 0 and 1, and two spells are one', () => {
  const kinetics = makeKinetics(CHLORINE)
  fc.assert(
    fc.property(waters, real(0, 1), (water, part) => {
      const whole = growthAfter(kinetics, water)
      expect(whole).toBeGreaterThanOrEqual(0)
      expect(whole).toBeLessThanOrEqual(1)
      const first = growthAfter(kinetics, { ...water, hours: water.hours * part })
      const rest = growthAfter(kinetics, { ...water, start: first, hours: water.hours * (1 - part) })
      expect(rest).toBeCloseTo(whole, 9)
    }),
  )
})

test('more residual never means more growth', () => {
  for (const disinfectant of ['free-chlorine', 'chloramine'] as const) {
    const kinetics = makeKinetics({ ...CHLORINE, disinfectant })
    fc.assert(
      fc.property(waters, real(0, 2), (water, more) => {
        const dosed = growthAfter(kinetics, { ...water, residualMgPerL: water.residualMgPerL + more })
        expect(dosed).toBeLessThanOrEqual(growthAfter(kinetics, water) + 1e-12)
      }),
    )
  }
})

test('a slow march in small steps comes to the same as the closed form', () => {
  const kinetics = makeKinetics(CHLORINE)
  const water = { start: 0.3, hours: 12, temperatureC: 41.3, residualMgPerL: 0.04 }
  const STEPS = 100_000
  let carried = water.start
  for (let step = 0; step < STEPS; step++) {
    const damping = 1 / (1 + water.residualMgPerL / kinetics.halfResidualMgPerL)
    const growing = kinetics.growthPerHour * tabled(kinetics.favour, water.temperatureC) * damping * (1 - carried)
    const dying = carried * water.residualMgPerL * tabled(kinetics.killPerHourPerMgPerL, water.temperatureC)
    carried += ((growing - dying) * water.hours) / STEPS
  }
  expect(growthAfter(kinetics, water)).toBeCloseTo(carried, 5)
})

test('heat kills only where nothing grows, and of an unknown disinfectant nothing is claimed', () => {
  for (const set of ['usual', 'wide'] as const) {
    const { favour, dieOffPerHour } = makeKinetics(CHLORINE, set)
    expect(favour.some((grows, at) => grows > 0 && (dieOffPerHour[at] ?? 0) > 0)).toBe(false)
    expect(tabled(dieOffPerHour, 55)).toBeGreaterThan(tabled(dieOffPerHour, 51))
    expect(tabled(dieOffPerHour, 95)).toBe(tabled(dieOffPerHour, 80))
  }
  const other = makeKinetics({ ...CHLORINE, disinfectant: 'other' })
  expect(other.halfResidualMgPerL).toBe(Number.POSITIVE_INFINITY)
  expect(Math.max(...other.killPerHourPerMgPerL)).toBe(0)
  const dosed = { start: 0, hours: 24, temperatureC: 37, residualMgPerL: 1 }
  expect(growthAfter(other, dosed)).toBe(growthAfter(other, { ...dosed, residualMgPerL: 0 }))
})

test.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('a bulk rate of %s is refused', (bulkPerHour) => {
  expect(() => makeKinetics({ ...CHLORINE, bulkPerHour })).toThrow(RangeError)
})
