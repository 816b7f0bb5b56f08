// The tables of the simulation against first-order decay, Arrhenius and the wall, and against the calculation of one residual.
import { residualDecay } from '@rillmark/science/chlorine/residual-decay.ts'
import { makeKinetics, tabled } from '@rillmark/science/network/kinetics.ts'
import type { Chemistry, NetworkPipe } from '@rillmark/science/network/network.ts'
import { WallExposure } from '@rillmark/science/network/wall-exposure.ts'
import { expect, test } from 'vitest'
import {
  BORES_MM,
  LEFT_AFTER_8_AND_24_H,
  OVERALL_PER_DAY,
  STANDING_PER_DAY,
  TIMES_THE_RATE_AT_20_C,
  WARMTH_C,
} from '../decay-rows.ts'
import { hold } from '../rows.ts'
import { build, type NetworkWords } from './build.ts'

const HOURS_PER_DAY = 24
const PLAIN: Chemistry = {
  disinfectant: 'free-chlorine',
  bulkPerHour: 0,
  wallMPerHour: 0,
  referenceC: 20,
  standingSherwood: 3.65,
}
const bulkAt = (chemistry: Partial<Chemistry>, temperatureC: number) =>
  tabled(makeKinetics({ ...PLAIN, ...chemistry }).bulkPerHour, temperatureC)

hold(LEFT_AFTER_8_AND_24_H, (perDay) =>
  [8, 24].map((hours) => Math.exp(-hours * bulkAt({ bulkPerHour: perDay / HOURS_PER_DAY }, 20))),
)

hold(TIMES_THE_RATE_AT_20_C, (activationKJPerMol) =>
  WARMTH_C.map((temperatureC) => bulkAt({ bulkPerHour: 1, activationKJPerMol }, temperatureC)),
)

/** What the wall of one pipe takes in the simulation, per hour. */
function wallPerHour(of: {
  pipe: Partial<NetworkPipe>
  chemistry: Chemistry
  flowLPerMin: number
  temperatureC: number
}) {
  const nodes: NetworkWords['nodes'] = { entry: { source: {} }, end: 'junction' }
  const { pipes } = build({ nodes, pipes: { 'entry end': { lengthM: 50, ...of.pipe } }, draws: {} })
  const walls = new WallExposure({ pipes, chemistry: of.chemistry, waterC: Float64Array.of(of.temperatureC) })
  return of.flowLPerMin === 0 ? (walls.standingPerHour[0] ?? 0) : 60 * walls.perMinute(0, of.flowLPerMin)
}

hold(OVERALL_PER_DAY, ({ bulkPerDay, wallMPerDay }) => {
  const chemistry = { ...PLAIN, bulkPerHour: bulkPerDay / HOURS_PER_DAY, wallMPerHour: wallMPerDay / HOURS_PER_DAY }
  const wall = wallPerHour({ pipe: {}, chemistry, flowLPerMin: 1.2, temperatureC: 20 })
  return (bulkAt(chemistry, 20) + wall) * HOURS_PER_DAY
})

hold(STANDING_PER_DAY, (standingSherwood) => {
  const chemistry = { ...PLAIN, wallMPerHour: 1e6, standingSherwood }
  return BORES_MM.map(
    (boreMm) => HOURS_PER_DAY * wallPerHour({ pipe: { boreMm }, chemistry, flowLPerMin: 0, temperatureC: 20 }),
  )
})

test('the simulation and the calculation of one residual tell the same loss', () => {
  const flows = [0, 0.05, 1.2, 4, 12]
  const cases = [5, 20, 37.3, 60].flatMap((temperatureC) => flows.map((flowLPerMin) => ({ temperatureC, flowLPerMin })))
  for (const { temperatureC, flowLPerMin } of cases) {
    const chemistry = { ...PLAIN, bulkPerHour: 0.03, wallMPerHour: 0.002, activationKJPerMol: 65 }
    const pipe = { boreMm: 16, lengthM: 8 }
    const wall = wallPerHour({ pipe, chemistry, flowLPerMin, temperatureC })
    const left = Math.exp(-6 * (bulkAt(chemistry, temperatureC) + wall))
    const want = residualDecay({ ...chemistry, ...pipe, startMgPerL: 1, hours: 6, temperatureC, flowLPerMin })
    // a table in steps of a quarter of a degree is good to 1e-4 of the rate, over a few e-foldings
    expect(Math.abs(left / want.residualMgPerL - 1)).toBeLessThan(1e-3)
  }
})
