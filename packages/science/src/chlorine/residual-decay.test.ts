import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { type ResidualDecayInput, residualDecay } from './residual-decay.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const pipes: fc.Arbitrary<ResidualDecayInput> = fc.record({
  startMgPerL: real(0.01, 10),
  hours: real(0, 200),
  bulkPerHour: real(0, 1),
  wallMPerHour: fc.oneof(fc.constant(0), real(1e-6, 100)),
  boreMm: real(5, 200),
  temperatureC: real(0, 90),
  referenceC: real(5, 30),
  flowLPerMin: fc.oneof(fc.constant(0), real(0.01, 100)),
  lengthM: fc.oneof(fc.constant(0), real(0.001, 200)),
  standingSherwood: real(1, 5),
})
const bottle = {
  startMgPerL: 1,
  hours: 24,
  bulkPerHour: 0.02,
  wallMPerHour: 0,
  temperatureC: 20,
  referenceC: 20,
  flowLPerMin: 0,
  standingSherwood: 3.65,
}

test('after one half-life half is left, and two spells are one', () => {
  fc.assert(
    fc.property(pipes, real(0, 1), (input, part) => {
      const got = residualDecay(input)
      const half = residualDecay({ ...input, hours: got.halfLifeHours ?? 0 }).residualMgPerL / input.startMgPerL
      expect(half).toBeCloseTo(got.halfLifeHours === undefined ? 1 : 0.5, 9)
      const first = residualDecay({ ...input, hours: input.hours * part }).residualMgPerL
      const rest = residualDecay({ ...input, startMgPerL: first, hours: input.hours * (1 - part) }).residualMgPerL
      expect(rest).toBeCloseTo(got.residualMgPerL, 9)
    }),
  )
})

test('wall and film in series take less than either alone; warmer water, a narrower pipe and a readier wall more', () => {
  fc.assert(
    fc.property(pipes, (input) => {
      const got = residualDecay(input)
      const film = (4000 / (input.boreMm ?? 1)) * (got.filmMPerHour ?? 0)
      expect(got.wallPerHour).toBeLessThanOrEqual(got.wallWithoutFilmPerHour)
      expect(got.wallPerHour).toBeLessThanOrEqual(film)
      expect(
        residualDecay({ ...input, temperatureC: input.temperatureC + 1 }).bulkAtTemperaturePerHour,
      ).toBeGreaterThanOrEqual(got.bulkAtTemperaturePerHour)
      expect(residualDecay({ ...input, wallMPerHour: input.wallMPerHour * 2 }).wallPerHour).toBeGreaterThanOrEqual(
        got.wallPerHour,
      )
      const still = { ...input, flowLPerMin: 0 }
      const narrow = { ...still, boreMm: (input.boreMm ?? 1) / 2 }
      expect(residualDecay(narrow).wallPerHour).toBeGreaterThanOrEqual(residualDecay(still).wallPerHour)
    }),
  )
})

test('a wall that takes everything leaves the film as the limit, and one that takes next to nothing is not limited', () => {
  const pipe = { ...bottle, boreMm: 13 }
  const greedy = residualDecay({ ...pipe, wallMPerHour: 1e6 })
  expect(greedy.wallPerHour / ((4000 / 13) * (greedy.filmMPerHour ?? 0))).toBeCloseTo(1, 6)
  const idle = residualDecay({ ...pipe, wallMPerHour: 1e-9 })
  expect(idle.wallPerHour / idle.wallWithoutFilmPerHour).toBeCloseTo(1, 4)
})

test('nothing decays: the start, and no half-life; hours or residual of 0', () => {
  expect(residualDecay({ ...bottle, bulkPerHour: 0 })).toMatchObject({ residualMgPerL: 1, overallPerHour: 0 })
  expect(residualDecay({ ...bottle, bulkPerHour: 0 }).halfLifeHours).toBeUndefined()
  expect(residualDecay({ ...bottle, hours: 0 }).residualMgPerL).toBe(1)
  expect(residualDecay({ ...bottle, startMgPerL: 0 }).residualMgPerL).toBe(0)
})

test('a wall without a bore is refused at the bore', () => {
  const input = { startMgPerL: 1, hours: 1, bulkPerHour: 0.1, wallMPerHour: 0.01 }
  expect(runCalculation({ id: 'residual-decay', input })).toMatchObject({
    issues: [{ path: 'boreMm', received: 'nothing' }],
  })
  expect(() => residualDecay({ ...bottle, wallMPerHour: 0.01 })).toThrow(RangeError)
})

test('pipes passed one after the other are one, but for laminar flow, where each piece begins a film anew', () => {
  fc.assert(
    fc.property(pipes, real(0.05, 0.95), (input, part) => {
      const whole = { ...input, lengthM: 10 }
      const piece = (share: number, startMgPerL: number) =>
        residualDecay({ ...whole, startMgPerL, lengthM: 10 * share, hours: input.hours * share })
      const cut = piece(1 - part, piece(part, input.startMgPerL).residualMgPerL).residualMgPerL
      const { residualMgPerL, regime } = residualDecay(whole)
      // Laminar films begin anew in each piece and take more; others are the same, cut or whole.
      const least = regime === 'laminar' ? 0 : residualMgPerL * (1 - 1e-9)
      expect(cut).toBeGreaterThanOrEqual(least)
      expect(cut).toBeLessThanOrEqual(residualMgPerL * (1 + 1e-9))
    }),
  )
})
