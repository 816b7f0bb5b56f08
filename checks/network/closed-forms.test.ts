// The simulation against what can be worked out on paper: cooling, decay, age, mixing and stirred tanks.
import type { Network } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { type From, hold } from '../rows.ts'
import { build, type NetworkWords, volumeL } from './build.ts'
import { heatPerM3K } from './engine-text.ts'

const LAW: From = 'computed: T = Ta + (T0 - Ta) exp(-U L / (rho cp Q))'
const FIRST: From = 'computed: C = C0 exp(-k t)'
const DIGITS = 'no step of the method stands between; rounding alone'
const HEAT = 'heat capacity of a m³ changes by 1 % between 60 and 20 °C, and is taken once for each pipe'

const S_PER_MIN = 60
const PIPE = { lengthM: 20, boreMm: 13 }

/** One pipe from a source to a tap. */
function onePipe(words: {
  pipe: NetworkWords['pipes'][string]
  draw: NetworkWords['draws'][string]
  source?: { temperatureC?: number; residualMgPerL?: number }
  chemistry?: NetworkWords['chemistry']
}): Network {
  return build({
    nodes: { entry: { source: words.source ?? {} }, tap: 'junction' },
    pipes: { 'entry tap': words.pipe },
    draws: { tap: words.draw },
    ...(words.chemistry && { chemistry: words.chemistry }),
  })
}

const simulated = (network: Network) => simulateDay(network)
const endOf = (network: Network) => simulated(network).pipes[0]?.end

interface Along {
  lossWPerMK: number
  flowLPerMin: number
  startC: number
}
const along = ({ lossWPerMK, flowLPerMin, startC }: Along) => {
  const wattsPerK = heatPerM3K((startC + 20) / 2) * (flowLPerMin / 1000 / S_PER_MIN)
  return 20 + (startC - 20) * Math.exp((-lossWPerMK * PIPE.lengthM) / wattsPerK)
}
const ALONG: Along[] = [
  { lossWPerMK: 0.2, flowLPerMin: 4, startC: 60 },
  { lossWPerMK: 0.25, flowLPerMin: 0.5, startC: 60 },
  { lossWPerMK: 0.5, flowLPerMin: 0.1, startC: 60 },
  { lossWPerMK: 0.3, flowLPerMin: 0.2, startC: 8 },
]

// biome-ignore format: a table, one row a line
hold<Along>(
  ALONG.map((row) => [`${row.startC} °C along 20 m at ${row.flowLPerMin} L/min and ${row.lossWPerMK} W/(m K)`, row, along(row), 0.01 * Math.abs(row.startC - along(row)) + 1e-3, HEAT, LAW]),
  ({ lossWPerMK, flowLPerMin, startC }) =>
    endOf(onePipe({ pipe: { ...PIPE, lossWPerMK }, draw: flowLPerMin, source: { temperatureC: startC } }))?.temperatureC.mean,
)

/** Ten minutes of draw at midnight, then rest to the next midnight. */
const ONE_DRAW = [{ startMinute: 0, minutes: 10, flowLPerMin: 5 }]
const REST_H = 24 - 1 / 6
const SHORT = { lengthM: 2, boreMm: 13 }
const WATER_J_PER_MK = heatPerM3K(40) * (Math.PI / 4) * 0.013 ** 2
/** Cooling per hour of rest with the given loss and heat of the wall. */
const restPerHour = ({ lossWPerMK, wallHeatJPerMK }: Rest) => (lossWPerMK * 3600) / (WATER_J_PER_MK + wallHeatJPerMK)
interface Rest {
  lossWPerMK: number
  wallHeatJPerMK: number
}
const RESTS: Rest[] = [
  { lossWPerMK: 0.006, wallHeatJPerMK: 0 },
  { lossWPerMK: 0.02, wallHeatJPerMK: 0 },
  { lossWPerMK: 0.04, wallHeatJPerMK: 300 },
]
const resting = (rest: Rest) =>
  simulated(onePipe({ pipe: { ...SHORT, ...rest }, draw: ONE_DRAW, source: { temperatureC: 60 } })).pipes[0]?.end

// biome-ignore format: a table, one row a line
hold<Rest>(
  RESTS.map((rest) => [`standing at ${rest.lossWPerMK} W/(m K), wall ${rest.wallHeatJPerMK} J/(m K): coldest before the next draw`, rest, 20 + 40 * Math.exp(-restPerHour(rest) * REST_H), 0.15, `${HEAT}; a step of a minute`, 'computed: T = Ta + (T0 - Ta) exp(-U t / (rho cp A + C))']),
  (rest) => resting(rest)?.temperatureC.min,
)

// biome-ignore format: a table, one row a line
hold<Rest>(
  RESTS.slice(1).map((rest) => [`hours from 45 to 25 °C at ${rest.lossWPerMK} W/(m K), wall ${rest.wallHeatJPerMK} J/(m K)`, rest, Math.log(25 / 5) / restPerHour(rest), { share: 0.015 }, HEAT, 'computed: t = ln((45 - Ta)/(25 - Ta)) (rho cp A + C)/U']),
  (rest) => resting(rest)?.hoursInGrowthBand,
)

interface Decay {
  bulkPerHour: number
  flowLPerMin: number
}
const travelH = ({ flowLPerMin }: Decay) => volumeL(PIPE) / flowLPerMin / 60
const DECAYS: Decay[] = [
  { bulkPerHour: 0.05, flowLPerMin: 0.1 },
  { bulkPerHour: 2, flowLPerMin: 0.1 },
  { bulkPerHour: 20, flowLPerMin: 0.5 },
]

// biome-ignore format: a table, one row a line
hold<Decay>(
  DECAYS.map((row) => [`bulk decay of ${row.bulkPerHour} per hour over 20 m at ${row.flowLPerMin} L/min`, row, Math.exp(-row.bulkPerHour * travelH(row)), 1e-4, DIGITS, FIRST]),
  ({ bulkPerHour, flowLPerMin }) =>
    endOf(onePipe({ pipe: PIPE, draw: flowLPerMin, chemistry: { bulkPerHour } }))?.residualMgPerL.mean,
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['standing: residual at the end of a day’s rest at 0.1 per hour', 0.1, Math.exp(-0.1 * REST_H), 2e-3, 'a step of a minute', FIRST],
    ['standing: the same with an activation energy, at the reference temperature', 0.1, Math.exp(-0.1 * REST_H), 2e-3, 'a step of a minute', FIRST],
  ],
  (bulkPerHour) =>
    endOf(onePipe({ pipe: SHORT, draw: ONE_DRAW, chemistry: { bulkPerHour, activationKJPerMol: 50 } }))?.residualMgPerL.min,
)

const ROWS_41: From =
  'seen: formulas of the EPANET 2.2 manual; figures computed by hand and by that engine (0.912402, 0.889901)'
interface WallRow {
  bulkPerHour: number
  wallMPerHour: number
}
// biome-ignore format: a table, one row a line
hold<WallRow>(
  [
    ['13 mm, 50 m, 0.02 L/s, bulk 1 per day', { bulkPerHour: 1 / 24, wallMPerHour: 0 }, 0.99617, 6e-6, 'half a last printed digit', ROWS_41],
    ['the same, wall 0.3 m/day', { bulkPerHour: 1 / 24, wallMPerHour: 0.3 / 24 }, 0.91241, 0.001 * 0.0876, 'the source writes 2/3 as 0.667, a thousandth of the film', ROWS_41],
    ['no bulk, wall 100 m/day: the film is the limit', { bulkPerHour: 0, wallMPerHour: 100 / 24 }, 0.88992, 0.001 * 0.1101, 'the source writes 2/3 as 0.667, a thousandth of the film', ROWS_41],
  ],
  (chemistry) => endOf(onePipe({ pipe: { lengthM: 50, boreMm: 13 }, draw: 1.2, chemistry }))?.residualMgPerL.mean,
)

const STANDING_41: From = 'computed: K = 4 Sh D/d², half-life of standing water at the transport limit'
// biome-ignore format: a table, one row a line
hold<[boreMm: number, sherwood: number]>(
  [
    ['half-life in 10 mm, Sh 3.65', [10, 3.65], 1.09, 0.02, 'half a last digit, and a step of a minute', STANDING_41],
    ['13 mm, Sh 3.65', [13, 3.65], 1.85, 0.02, 'half a last digit, and a step of a minute', STANDING_41],
    ['26 mm, Sh 3.65', [26, 3.65], 7.38, 0.03, 'half a last digit, and a step of a minute', STANDING_41],
    ['trap: 13 mm, Sh 2 lasts nearly twice as long', [13, 2], 3.37, 0.02, 'half a last digit, and a step of a minute', STANDING_41],
    ['20 mm, Sh 2', [20, 2], 7.97, 0.03, 'half a last digit, and a step of a minute', STANDING_41],
  ],
  ([boreMm, standingSherwood]) => {
    const chemistry = { wallMPerHour: 1000, standingSherwood }
    const draw = [{ startMinute: 0, minutes: 60, flowLPerMin: 60 }, { startMinute: 720, minutes: 60, flowLPerMin: 60 }]
    const least = endOf(onePipe({ pipe: { lengthM: 0.5, boreMm }, draw, chemistry }))?.residualMgPerL.min ?? 0
    return (11 * Math.LN2) / -Math.log(least)
  },
)
