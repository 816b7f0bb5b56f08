// Three risers on one loop: a pump pushes, friction and balancing valves decide the flows, every metre loses heat.
import type { Network } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { type From, hold } from '../rows.ts'
import { build } from './build.ts'

const NEWTON: From =
  'computed: an independent Newton solution (Swamee and Jain, Dunlop, laminar) and the EPANET engine 2.3.5; T = Ta + (T0 - Ta) exp(-U L/(m cp))'
type Valves = [first: number, second: number, third: number]
const UNBALANCED: Valves = [5, 5, 5]
const BALANCED: Valves = [76.4608, 41.15599, 5]
const L_PER_MIN = 60

/** H = 2.0 − 22.222 q², q in L/s; the heater holds 60 °C. */
const PUMP = { shutOffHeadM: 2, headDropMPerLPerMin2: 22.222 / L_PER_MIN ** 2 }
const LOSS = { lossWPerMK: 0.2, ambientC: 25 }

function threeRisers([first, second, third]: Valves): Network {
  const pipe = (lengthM: number, boreMm: number, rest: object = {}) => ({ ...LOSS, lengthM, boreMm, ...rest })
  return build({
    nodes: {
      entry: { source: { temperatureC: 60 } },
      S: { vessel: { volumeL: 300, setpointC: 60 } },
      A: 'junction',
      B: 'junction',
      C: 'junction',
      topA: 'junction',
      topB: 'junction',
      topC: 'junction',
      footA: 'junction',
      footB: 'junction',
      footC: 'junction',
    },
    pipes: {
      'entry S': { lengthM: 1, boreMm: 25 },
      'S A': pipe(10, 25, { pump: PUMP }),
      'A B': pipe(10, 20),
      'B C': pipe(10, 16),
      'A topA': pipe(20, 16),
      'B topB': pipe(20, 16),
      'C topC': pipe(20, 16),
      'topA footA': pipe(20, 10, { fittingLoss: first }),
      'topB footB': pipe(20, 10, { fittingLoss: second }),
      'topC footC': pipe(20, 10, { fittingLoss: third }),
      'footC footB': pipe(10, 10),
      'footB footA': pipe(10, 13),
      'footA S': pipe(10, 13, { returning: true }),
    },
    draws: {},
  })
}

const RISERS = ['topA footA', 'topB footB', 'topC footC']
const TOPS = ['A topA', 'B topB', 'C topC']
const day = (valves: Valves) => {
  const network = threeRisers(valves)
  const { pipes } = simulateDay(network)
  const of = (name: string) => pipes[network.pipes.findIndex(({ id }) => id === name)]
  return { of, end: (name: string) => of(name)?.end.temperatureC.mean }
}

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: flow of each riser and of the loop, L/s', UNBALANCED, [0.04259, 0.03542, 0.0284, 0.10641], { share: 0.005 }, 'half a percent, as asked', NEWTON],
    ['balanced', BALANCED, [0.0318, 0.0318, 0.0318, 0.09539], { share: 0.005 }, 'half a percent, as asked', NEWTON],
  ],
  (valves) => {
    const { of } = day(valves)
    return [...RISERS, 'S A'].map((name) => (of(name)?.flowLPerMin.mean ?? Number.NaN) / L_PER_MIN)
  },
)

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: tops of the risers, feet of the returns, water back at the heater, °C', UNBALANCED, [59.054, 58.639, 57.845, 58.285, 57.728, 56.739, 57.25], 0.1, 'a tenth of a kelvin, as asked', NEWTON],
    ['balanced', BALANCED, [58.773, 58.516, 58.007, 57.756, 57.506, 57.013, 56.937], 0.1, 'a tenth of a kelvin, as asked', NEWTON],
  ],
  (valves) => {
    const { end } = day(valves)
    return [...TOPS, ...RISERS, 'footA S'].map(end)
  },
)

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: heat given to the air, W', UNBALANCED, 1203.7, { share: 0.005 }, 'flows of half a percent', NEWTON],
    ['balanced', BALANCED, 1201.6, { share: 0.005 }, 'flows of half a percent', NEWTON],
  ],
  (valves) => simulateDay(threeRisers(valves)).pipes.reduce((sum, { heatLossW }) => sum + heatLossW, 0),
)
