// Whole small networks against what can be worked out on paper: ages, mixing, stirred tanks, loops of hot water.
import { loopTemperature } from '@rillmark/science/heat/loop-temperature.ts'
import type { Network, Vessel } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { expect, test } from 'vitest'
import { type From, hold } from '../rows.ts'
import { build, volumeL } from './build.ts'
import { heatPerM3K } from './engine-text.ts'

const BALANCE: From =
  'computed: in a steady state the flow-weighted sum of the ages at the outlets is the volume that moves'
const TANK: From = 'computed: stirred tank of volume V and flow Q: C = C0/(1 + k V/Q), mean age V/Q'
const DIGITS = 'no step of the method stands between; rounding and merging alone'

const ALONG = { lengthM: 10, boreMm: 20 }
const NARROW = { lengthM: 16, boreMm: 13 }
const HOURS = (litres: number, lPerMin: number) => litres / lPerMin / 60
const SUM_L = 2 * volumeL(ALONG) + volumeL(NARROW)

const SERIES = build({
  nodes: { entry: { source: {} }, a: 'junction', b: 'junction', tap: 'junction' },
  pipes: { 'entry a': ALONG, 'a b': NARROW, 'b tap': ALONG },
  draws: { tap: 0.5 },
})
const PARALLEL = build({
  nodes: { entry: { source: {} }, a: 'junction', tap: 'junction' },
  pipes: { 'entry a': ALONG, 'a tap': NARROW, 'a tap again': ALONG },
  draws: { tap: 0.5 },
})
/** A ring fed at one corner, with a tap at the opposite one: the same way round on both sides. */
const RING = build({
  nodes: { entry: { source: {} }, a: 'junction', b: 'junction', c: 'junction', d: 'junction' },
  pipes: { 'entry a': ALONG, 'a b': NARROW, 'b c': NARROW, 'c d': NARROW, 'd a': NARROW },
  draws: { c: 0.6 },
})

// biome-ignore format: a table, one row a line
hold<Network>(
  [
    ['age after three pipes in series, h', SERIES, HOURS(SUM_L, 0.5), 1e-4, DIGITS, BALANCE],
    ['age after two unlike pipes side by side, h', PARALLEL, HOURS(SUM_L, 0.5), 1e-4, DIGITS, BALANCE],
    ['age across a ring, h', RING, HOURS(volumeL(ALONG) + 4 * volumeL(NARROW), 0.6), 1e-4, DIGITS, BALANCE],
  ],
  (network) => simulateDay(network).outlets[0]?.ageHours.mean,
)

const mixing = (hotLPerMin: number) =>
  build({
    nodes: {
      cold: { source: { temperatureC: 10, residualMgPerL: 1 } },
      hot: { source: { temperatureC: 60, residualMgPerL: 0.2 } },
      a: 'junction',
      tap: 'junction',
    },
    pipes: { 'hot a': { ...ALONG, fixedFlowLPerMin: hotLPerMin }, 'cold a': ALONG, 'a tap': NARROW },
    draws: { tap: 5 },
  })

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['2 L/min of 60 °C and 0.2 mg/L with 3 of 10 °C and 1 mg/L', 2, [30, 0.68], 1e-4, DIGITS, 'computed: the mean weighted by flow'],
    ['0.5 L/min with 4.5', 0.5, [15, 0.92], 1e-4, DIGITS, 'computed: the mean weighted by flow'],
  ],
  (hot) => {
    const outlet = simulateDay(mixing(hot)).outlets[0]
    return [outlet?.temperatureC.mean, outlet?.residualMgPerL.mean]
  },
)

interface Tank {
  vessel: Partial<Vessel>
  flowLPerMin: number
  bulkPerHour?: number
}
/** The feed and the tap are so short that they hold next to nothing. */
const STUB = { lengthM: 0.01, boreMm: 10 }
const tank = ({ vessel, flowLPerMin, bulkPerHour = 0 }: Tank) =>
  simulateDay(
    build({
      nodes: { entry: { source: { temperatureC: 60 } }, tank: { vessel }, tap: 'junction' },
      pipes: { 'entry tank': STUB, 'tank tap': STUB },
      draws: { tap: flowLPerMin },
      chemistry: { bulkPerHour },
    }),
  ).outlets[0]
const SPLIT = 'a step of a minute, in which the tank ages by halves before and after the water passes'

// biome-ignore format: a table, one row a line
hold<Tank>(
  [
    ['mean age of a stirred tank of 120 L at 0.5 L/min, h', { vessel: { volumeL: 120 }, flowLPerMin: 0.5 }, 4, 0.004, SPLIT, TANK],
    ['the same of four layers', { vessel: { volumeL: 120, layers: 4 }, flowLPerMin: 0.5 }, 4, 0.004, SPLIT, TANK],
    ['600 L at 4 L/min', { vessel: { volumeL: 600 }, flowLPerMin: 4 }, 2.5, 0.0025, SPLIT, TANK],
  ],
  (each) => tank(each)?.ageHours.mean,
)

// biome-ignore format: a table, one row a line
hold<Tank>(
  [
    ['residual after a stirred tank, k V/Q = 1', { vessel: { volumeL: 120 }, flowLPerMin: 0.5, bulkPerHour: 0.25 }, 1 / 2, 0.001, SPLIT, TANK],
    ['after four layers, k V/Q = 1', { vessel: { volumeL: 120, layers: 4 }, flowLPerMin: 0.5, bulkPerHour: 0.25 }, 1.25 ** -4, 0.001, SPLIT, TANK],
    ['after ten, k V/Q = 2', { vessel: { volumeL: 240, layers: 10 }, flowLPerMin: 0.5, bulkPerHour: 0.25 }, 1.2 ** -10, 0.001, SPLIT, TANK],
  ],
  (each) => tank(each)?.residualMgPerL.mean,
)

const COOLING = 5 / (heatPerM3K(40) * (2 / 60_000))
// biome-ignore format: a table, one row a line
hold<Tank>(
  [
    ['temperature of a stirred tank that loses 5 W/K, 2 L/min of 60 °C in 20 °C', { vessel: { volumeL: 200, lossWPerK: 5 }, flowLPerMin: 2 }, 20 + 40 / (1 + COOLING), 0.01, SPLIT, 'computed: T = Ta + (T0 - Ta)/(1 + UA/(rho cp Q)), rho cp at 40 °C'],
  ],
  (each) => tank(each)?.temperatureC.mean,
)

/** Draws for some hours, then none: the tank's age follows V/Q + (a0 - V/Q) exp(-Q t/V) and then rises with the clock. */
const WASHOUT = { volumeL: 300, flowLPerMin: 2, onHours: 5 }
const washout = () => {
  const turn = HOURS(WASHOUT.volumeL, WASHOUT.flowLPerMin)
  const kept = Math.exp(-WASHOUT.onHours / turn)
  const off = 24 - WASHOUT.onHours
  const end = (turn * (1 - kept) + off * kept) / (1 - kept)
  const start = end + off
  return { start, end, mean: turn + ((start - turn) * (1 - kept) * turn) / WASHOUT.onHours }
}

// biome-ignore format: a table, one row a line
hold<typeof WASHOUT>(
  [['washout of a tank drawn from for five hours a day: oldest, freshest, mean while drawn, h', WASHOUT, Object.values(washout()), { share: 0.005 }, 'a step of a minute: means over it, not moments', 'computed: a = V/Q + (a0 - V/Q) exp(-Q t/V), periodic']],
  ({ volumeL: litres, flowLPerMin, onHours }) => {
    const draws = [{ startMinute: 360, minutes: onHours * 60, flowLPerMin }]
    const network = build({
      nodes: { entry: { source: {} }, tank: { vessel: { volumeL: litres } }, tap: 'junction' },
      pipes: { 'entry tank': STUB, 'tank tap': STUB },
      draws: { tap: draws },
    })
    const { ageHours } = simulateDay(network, { mostDays: 40 }).outlets[0] ?? {}
    return [ageHours?.max, ageHours?.min, ageHours?.mean]
  },
)

const LOOP = { lengthM: 60, lossWPerMK: 0.2 }
interface Loop {
  flowLPerMin: number
  setpointC: number
}
const loop = ({ flowLPerMin, setpointC }: Loop) =>
  build({
    nodes: { entry: { source: { temperatureC: 12 } }, store: { vessel: { volumeL: 200, setpointC } }, far: 'junction' },
    pipes: {
      'entry store': STUB,
      'store far': { ...LOOP, boreMm: 25 },
      'far store': { ...LOOP, boreMm: 13, returning: true, fixedFlowLPerMin: flowLPerMin },
    },
    draws: {},
  })
const byCatalogue = ({ flowLPerMin, setpointC }: Loop) =>
  loopTemperature({
    segments: [LOOP, LOOP],
    flowLPerMin,
    startC: setpointC,
    ambientC: 20,
  }).segmentEndC
const LOOPS: Loop[] = [
  { flowLPerMin: 4, setpointC: 60 },
  { flowLPerMin: 1, setpointC: 60 },
  { flowLPerMin: 2, setpointC: 50 },
]

// biome-ignore format: a table, one row a line
hold<Loop>(
  LOOPS.map((each) => [`flow and return at ${each.flowLPerMin} L/min and ${each.setpointC} °C`, each, byCatalogue(each), 0.05, 'heat capacity of a m³ is taken once for each pipe: 0.3 % of the drop', 'computed: loop-temperature of the catalogue, itself held against flows and temperatures of an engine']),
  (each) => {
    const { pipes } = simulateDay(loop(each))
    return [pipes[1]?.end.temperatureC.mean, pipes[2]?.end.temperatureC.mean]
  },
)

test('a loop that nobody draws from grows old without end, is warm, and says that it never changes its water', () => {
  const { pipes, balance } = simulateDay(loop({ flowLPerMin: 4, setpointC: 60 }))
  expect(pipes[2]?.end.ageHours.min).toBeGreaterThan(24)
  expect(balance.energyErrorFraction).toBeLessThan(1e-3)
})
