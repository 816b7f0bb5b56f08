import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { residualDecay } from '../chlorine/residual-decay.ts'
import { wallFilm } from '../chlorine/wall-film.ts'
import type { Chemistry } from './network.ts'
import { makeWallRate } from './wall-rate.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const chemistry = (wallMPerHour: number, standingSherwood: number): Chemistry => ({
  disinfectant: 'free-chlorine',
  bulkPerHour: 0,
  wallMPerHour,
  referenceC: 20,
  standingSherwood,
})

test('the rate of a pipe is that of the calculation of one residual', () => {
  const cases = fc.record({
    boreMm: real(5, 200),
    lengthM: real(0.1, 100),
    flowLPerMin: fc.oneof(fc.constant(0), real(0.001, 100)),
    temperatureC: real(0, 100),
    wallMPerHour: fc.oneof(fc.constant(0), real(1e-6, 10)),
    standingSherwood: real(1, 5),
  })
  fc.assert(
    fc.property(cases, (input) => {
      const rate = makeWallRate(input, chemistry(input.wallMPerHour, input.standingSherwood))
      const want = residualDecay({ ...input, startMgPerL: 1, hours: 1, bulkPerHour: 0, referenceC: 20 })
      // Where the regime is about to change, a table 1e-5 off may stand on the other side.
      const edge = edgeOf(input)
      fc.pre(Math.abs(edge - 1) > 1e-3 && Math.abs(edge / 2300 - 1) > 1e-3)
      rate.setFlow(input.flowLPerMin)
      expect(Math.abs(rate.perHour(input.temperatureC) - want.wallPerHour)).toBeLessThanOrEqual(1e-4 * want.wallPerHour)
    }),
    { numRuns: 300 },
  )
})

function edgeOf(input: { boreMm: number; flowLPerMin: number; temperatureC: number }): number {
  return wallFilm({ ...input, standingSherwood: 2 }).reynolds
}

test('water that runs the other way meets the same wall', () => {
  const rate = makeWallRate({ boreMm: 13, lengthM: 5 }, chemistry(0.01, 3.65))
  rate.setFlow(3)
  const forward = rate.perHour(20)
  rate.setFlow(-3)
  expect(rate.perHour(20)).toBe(forward)
  rate.setFlow(0)
  expect(rate.perHour(20)).toBeLessThan(forward)
})

test.each([
  [{ boreMm: 0, lengthM: 5 }, 0.01],
  [{ boreMm: 13, lengthM: 5 }, -1],
  [{ boreMm: Number.NaN, lengthM: 5 }, 0.01],
])('a pipe of %o with a wall of %s m/h is refused', (pipe, wall) => {
  expect(() => makeWallRate(pipe, chemistry(wall, 2))).toThrow(RangeError)
})
