// The tables of the simulation against first-order decay, Arrhenius and the wall, and against the calculation of one residual.
import { residualDecay } from '@rillmark/science/chlorine/residual-decay.ts'
import { makeKinetics, tabled } from '@rillmark/science/network/kinetics.ts'
import type { Chemistry, NetworkPipe } from '@rillmark/science/network/network.ts'
import { WallExposure } from '@rillmark/science/network/wall-exposure.ts'
import { expect, test } from 'vitest'
import { type From, hold } from '../rows.ts'

const HOURS_PER_DAY = 24
const FIRST: From = 'computed: first-order decay, C = C0 exp(-kt)'
const KOECHLING: From = 'computed: Koechling 1998, 1.1 for each degree (factor seen, as cited in the EPANET 2.2 manual)'
const ARRHENIUS: From = 'computed: exp[-E/R (1/T - 1/293.15)]'
const ENGINE: From =
  'computed: EPANET 2.3.5, 1 s quality step, and the formulas of the EPANET 2.2 manual, chapter 12 (seen)'
const MANUAL: From = 'computed: formulas of the EPANET 2.2 manual, chapter 12 (seen), diffusivity 1.2077e-9 m²/s'
const PRINTED = 'half a last printed digit'
const LAST = 'half a last digit of the third or fourth printed'

const PLAIN: Chemistry = {
  disinfectant: 'free-chlorine',
  bulkPerHour: 0,
  wallMPerHour: 0,
  referenceC: 20,
  standingSherwood: 3.65,
}
const bulkAt = (chemistry: Partial<Chemistry>, temperatureC: number) =>
  tabled(makeKinetics({ ...PLAIN, ...chemistry }).bulkPerHour, temperatureC)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['0.05 per day: left after 8 and 24 h', 0.05, [0.9835, 0.9512], 6e-5, PRINTED, FIRST],
    ['0.1 per day: left after 8 and 24 h', 0.1, [0.9672, 0.9048], 6e-5, PRINTED, FIRST],
    ['0.25 per day: left after 8 and 24 h', 0.25, [0.92, 0.7788], 6e-5, PRINTED, FIRST],
    ['0.5 per day: left after 8 and 24 h', 0.5, [0.8465, 0.6065], 6e-5, PRINTED, FIRST],
    ['1 per day: left after 8 and 24 h', 1, [0.7165, 0.3679], 6e-5, PRINTED, FIRST],
    ['2 per day: left after 8 and 24 h', 2, [0.5134, 0.1353], 6e-5, PRINTED, FIRST],
    ['5 per day: left after 8 and 24 h', 5, [0.1889, 0.0067], 6e-5, PRINTED, FIRST],
  ],
  (perDay) => [8, 24].map((hours) => Math.exp(-hours * bulkAt({ bulkPerHour: perDay / HOURS_PER_DAY }, 20))),
)

const WARMTH = [5, 10, 15, 20, 25, 30, 40, 50, 60]

// biome-ignore format: a table, one row a line
hold<number | undefined>(
  [
    ['40 kJ/mol', 40, [0.413, 0.56, 0.752, 1, 1.317, 1.718, 2.852, 4.588, 7.174], { share: 2e-3 }, LAST, ARRHENIUS],
    ['55 kJ/mol', 55, [0.296, 0.451, 0.676, 1, 1.46, 2.105, 4.226, 8.124, 15.02], { share: 2e-3 }, LAST, ARRHENIUS],
    ['70.4 kJ/mol', 70.4, [0.211, 0.361, 0.606, 1, 1.623, 2.593, 6.326, 14.61, 32.07], { share: 2e-3 }, LAST, ARRHENIUS],
    ['1.1 for each degree', undefined, [0.239, 0.386, 0.621, 1, 1.611, 2.594, 6.727, 17.45, 45.26], { share: 2e-3 }, LAST, KOECHLING],
  ],
  (activationKJPerMol) => WARMTH.map((temperatureC) => bulkAt({ bulkPerHour: 1, activationKJPerMol }, temperatureC)),
)

const ANY: NetworkPipe = {
  id: 'p',
  from: 0,
  to: 1,
  returning: false,
  lengthM: 50,
  boreMm: 13,
  roughnessMm: 0.0015,
  fittingLoss: 0,
  lossWPerMK: 0,
  lossAtK: 40,
  lossPower: 0,
  wallHeatJPerMK: 0,
  ambientC: 20,
}

/** What the wall of one pipe takes in the simulation, per hour. */
function wallPerHour(of: {
  pipe: Partial<NetworkPipe>
  chemistry: Chemistry
  flowLPerMin: number
  temperatureC: number
}) {
  const pipes = [{ ...ANY, ...of.pipe }]
  const walls = new WallExposure({ pipes, chemistry: of.chemistry, waterC: Float64Array.of(of.temperatureC) })
  return of.flowLPerMin === 0 ? (walls.standingPerHour[0] ?? 0) : 60 * walls.perMinute(0, of.flowLPerMin)
}

const perDay = ({ bulk, wall }: { bulk: number; wall: number }) => {
  const chemistry = { ...PLAIN, bulkPerHour: bulk / HOURS_PER_DAY, wallMPerHour: wall / HOURS_PER_DAY }
  const rate = wallPerHour({ pipe: {}, chemistry, flowLPerMin: 1.2, temperatureC: 20 })
  return (bulkAt(chemistry, 20) + rate) * HOURS_PER_DAY
}
const VISCOSITY = 'the engine takes a viscosity of 1.0219 mm²/s, water has 1.0034: up to 0.1 % of the Sherwood number'

// biome-ignore format: a table, one row a line
hold<{ bulk: number; wall: number }>(
  [
    ['13 mm, 50 m, 0.02 L/s, bulk alone: per day', { bulk: 1, wall: 0 }, 1, { share: 1e-12 }, 'no film in it', ENGINE],
    ['the same, bulk and wall', { bulk: 1, wall: 0.3 }, 23.866, { share: 1e-3 }, VISCOSITY, ENGINE],
    ['the same, wall limited by transport', { bulk: 0, wall: 100 }, 30.366, { share: 1e-3 }, VISCOSITY, ENGINE],
  ],
  perDay,
)

const BORES = [10, 13, 20, 26]
const standing = (standingSherwood: number) => {
  const chemistry = { ...PLAIN, wallMPerHour: 1e6, standingSherwood }
  return BORES.map(
    (boreMm) => HOURS_PER_DAY * wallPerHour({ pipe: { boreMm }, chemistry, flowLPerMin: 0, temperatureC: 20 }),
  )
}

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['trap: standing, Sherwood 3.65, bores of 10 to 26 mm: per day', 3.65, [15.24, 9.02, 3.81, 2.25], { share: 2e-3 }, 'printed to three digits', MANUAL],
    ['trap: standing, Sherwood 2, bores of 10 to 26 mm: per day', 2, [8.35, 4.94, 2.09, 1.24], { share: 5e-3 }, 'printed to three digits; the last is 1.235 and was rounded up', MANUAL],
  ],
  standing,
)

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
