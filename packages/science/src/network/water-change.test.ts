import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { growthAfter, makeKinetics } from './kinetics.ts'
import { EXPOSURE, WATER, WaterChange } from './water-change.ts'

const kinetics = makeKinetics({
  disinfectant: 'free-chlorine',
  bulkPerHour: 0.1,
  wallMPerHour: 0,
  referenceC: 20,
  standingSherwood: 2,
})
const AMBIENT_C = 20
const rates = {
  volumeL: Float64Array.of(1, 1),
  ambientC: Float64Array.of(AMBIENT_C, AMBIENT_C),
  movingPerMinute: Float64Array.of(0.02, 0.02),
  standingPerMinute: Float64Array.of(0.01, 0.01),
  lossAtK: Float64Array.of(38, 38),
  lossPower: Float64Array.of(0, 0.25),
  heatJPerLK: Float64Array.of(4150, 4150),
}
const LINEAR = 0
const BENT = 1

/** What water comes to in a pipe. */
function after(pipe: number, of: { water: readonly number[]; spent: number; stood: number }): Float64Array {
  const change = new WaterChange({ rates, kinetics, wallStandingPerHour: Float64Array.of(0, 0), ageCapMinutes: 1e5 })
  change.water.set(of.water)
  change.exposure[EXPOSURE.spent] = of.spent
  change.exposure[EXPOSURE.stood] = of.stood
  change.stay(pipe)
  return change.water
}

const times = fc.record({
  temperatureC: fc.double({ min: 5, max: 70, noNaN: true }),
  spent: fc.double({ min: 0, max: 600, noNaN: true }),
  part: fc.double({ min: 0, max: 1, noNaN: true }),
})

test('cooling is the exponential where the loss goes with the difference, moving and standing each at its rate', () => {
  fc.assert(
    fc.property(times, ({ temperatureC, spent, part }) => {
      const stood = part * spent
      const found = after(LINEAR, { water: [0, temperatureC, 0, 0, 0], spent, stood })
      const left = Math.exp(-0.02 * (spent - stood) - 0.01 * stood)
      expect(Math.abs((found[WATER.temperature] ?? 0) - AMBIENT_C - (temperatureC - AMBIENT_C) * left)).toBeLessThan(
        2e-3,
      )
      expect(found[WATER.age]).toBeCloseTo(spent, 9)
      expect(found[WATER.standing]).toBeCloseTo(stood, 9)
    }),
  )
})

test('with a changing film it is the closed form of dθ/dt = −λ θ (|θ|/θ₀)^n, to 0.02 K', () => {
  fc.assert(
    fc.property(times, ({ temperatureC, spent }) => {
      const found = after(BENT, { water: [0, temperatureC, 0, 0, 0], spent, stood: 0 })
      const apart = temperatureC - AMBIENT_C
      const left = (1 + 0.25 * 0.02 * spent * (Math.abs(apart) / 38) ** 0.25) ** (-1 / 0.25)
      expect(Math.abs((found[WATER.temperature] ?? 0) - AMBIENT_C - apart * left)).toBeLessThan(0.02)
    }),
  )
})

test('water as warm as the air decays and grows as the kinetics have it', () => {
  const found = after(LINEAR, { water: [0, AMBIENT_C, 0.4, 0.1, 0], spent: 300, stood: 300 })
  expect(found[WATER.residual]).toBeCloseTo(0.4 * Math.exp(-0.1 * 5), 6)
  const dry = after(LINEAR, { water: [0, 37, 0, 0.1, 0], spent: 0, stood: 0 })
  expect(dry[WATER.growth]).toBeCloseTo(0.1, 12)
  const still = after(LINEAR, { water: [0, AMBIENT_C, 0, 0.1, 0], spent: 300, stood: 300 })
  const want = growthAfter(kinetics, { start: 0.1, hours: 5, temperatureC: AMBIENT_C, residualMgPerL: 0 })
  expect(still[WATER.growth]).toBeCloseTo(want, 6)
})

test('all stays within its range for any water and any time', () => {
  fc.assert(
    fc.property(
      times,
      fc.double({ min: 0, max: 5, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (of, residual, growth) => {
        const found = after(BENT, { water: [0, of.temperatureC, residual, growth, 0], spent: of.spent, stood: 0 })
        expect(found[WATER.residual]).toBeLessThanOrEqual(residual)
        expect(found[WATER.residual]).toBeGreaterThanOrEqual(0)
        expect(found[WATER.growth]).toBeGreaterThanOrEqual(0)
        expect(found[WATER.growth]).toBeLessThanOrEqual(1)
      },
    ),
  )
})
