// Heat of pipes against oracles/heat.py: Brent's method, implicit Runge-Kutta (SciPy), other tables of water and air.
// Known by: computed, its output committed beside it. Two handbook descriptions of air differ at 300 to 350 K by 1.5 % in
// kinematic viscosity, 1 % in Prandtl number and 0.2 % in conductivity. Convection goes with about the fifth root of
// Pr/ν², so by up to 0.8 % (0.6 + 0.2): that is the tolerance, of losses and of the way covered.
import { loopTemperature } from '@rillmark/science/heat/loop-temperature.ts'
import { pipeHeatLoss } from '@rillmark/science/heat/pipe-heat-loss.ts'
import { standingCooling } from '@rillmark/science/heat/standing-cooling.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/heat.json' with { type: 'json' }

const TOLERANCE = 8e-3
/** Temperatures to which the difference from the air has fallen almost wholly: hundredths of a degree. */
const FLOOR_K = 0.01

type Pipe = (typeof oracle.loss)[number]['pipe']

const build = ({ material, bore, od, ins, k, e }: Pipe) => ({
  material,
  outsideDiameterMm: od,
  wallMm: (od - bore) / 2,
  insulationMm: ins,
  insulationConductivityWPerMK: k,
  surfaceEmissivity: e,
})
const label = ({ material, od, ins }: Pipe) => `${material} of ${od} mm with ${ins} mm`

/** Error of the logarithm of the difference left, as a share of that logarithm, beyond what hundredths of a degree make. */
function expectSameWay(got: number, { start, air, end }: { start: number; air: number; end: number }) {
  const folds = (temperatureC: number) => Math.log((start - air) / (temperatureC - air))
  const floor = FLOOR_K / Math.abs(end - air)
  expect(Math.abs(folds(got) - folds(end))).toBeLessThan(TOLERANCE * folds(end) + floor)
}

test.each(oracle.loss)('loss of $pipe.material $pipe.od mm, $water in $air °C', ({ pipe, water, air, watts }) => {
  const got = pipeHeatLoss({ ...build(pipe), waterC: water, ambientC: air }).wattsPerM
  expect(Math.abs(got / watts - 1)).toBeLessThan(TOLERANCE)
})

test('standing water', () => {
  for (const each of oracle.standing) {
    const { wallMm: _, ...rest } = build(each.pipe)
    const input = { ...rest, boreMm: each.pipe.bore, thresholdsC: [], minutes: each.minutes }
    expectSameWay(standingCooling({ ...input, startC: each.start, ambientC: each.air }).temperatureC, each)
  }
  expect(oracle.standing.length).toBeGreaterThan(40)
})

test.each(oracle.segment)('$metres m at $flow L/min from $start in $air °C: $pipe.material $pipe.od mm', (each) => {
  const { returnC } = loopTemperature({
    segments: [{ ...build(each.pipe), name: label(each.pipe), lengthM: each.metres }],
    flowLPerMin: each.flow,
    startC: each.start,
    ambientC: each.air,
  })
  expectSameWay(returnC, each)
})
