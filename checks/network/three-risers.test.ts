// Three risers on one loop: a pump pushes, friction and balancing valves decide the flows, every metre loses heat. The flows alone first,
// to the digits two independent solvers print, then the simulated day.
import { makeFlowField } from '@rillmark/science/network/make-flow-field.ts'
import type { Network } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { type From, hold } from '../rows.ts'
import { build } from './build.ts'

const NEWTON: From =
  'computed: an independent Newton solution (Swamee and Jain, 64/Re and the cubic between, 0.474 mm²/s), T = Ta + (T0 - Ta) exp(-U L/(m cp))'
const ENGINE: From = 'computed: EPANET engine 2.3.5'
const PRINTED = 'flows are printed to four digits; the viscosity of water at 60 °C to three'
const GRAVITY = 'the engine takes 32.2 ft/s² and its own viscosity of 60 °C water'
type Valves = [first: number, second: number, third: number]
const UNBALANCED: Valves = [5, 5, 5]
const BALANCED: Valves = [76.4608, 41.15599, 5]
const S_PER_MIN = 60

/** H = 2.0 − 22.222 q², q in L/s; the heater holds 60 °C. */
const PUMP = { shutOffHeadM: 2, headDropMPerLPerMin2: 22.222 / S_PER_MIN ** 2 }
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
const LOOP = [...RISERS, 'S A']
const TOPS = ['A topA', 'B topB', 'C topC']
const indexOf = ({ pipes }: Network, name: string): number => pipes.findIndex(({ id }) => id === name)

/** The simulated day, worked out once. */
const days = new Map([UNBALANCED, BALANCED].map((valves) => [valves, simulateDay(threeRisers(valves))]))
const pipeOf = (valves: Valves, name: string) => days.get(valves)?.pipes[indexOf(threeRisers(valves), name)]

/** Flows of the three risers and of the loop, L/s, from friction alone. */
function flowsLPerS(valves: Valves): number[] {
  const network = threeRisers(valves)
  const field = makeFlowField(network)
  field.settle()
  return LOOP.map((name) => (field.flows[indexOf(network, name)] ?? Number.NaN) / S_PER_MIN)
}

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: flow of each riser and of the loop, from friction alone, L/s', UNBALANCED, [0.04259, 0.03542, 0.0284, 0.10641], { share: 5e-4 }, PRINTED, NEWTON],
    ['balanced, from friction alone', BALANCED, [0.0318, 0.0318, 0.0318, 0.09539], { share: 5e-4 }, PRINTED, NEWTON],
    ['unbalanced, beside the engine', UNBALANCED, [0.04261, 0.03543, 0.02841, 0.10645], { share: 2e-3 }, GRAVITY, ENGINE],
    ['balanced, beside the engine', BALANCED, [0.03181, 0.03181, 0.03181, 0.09543], { share: 2e-3 }, GRAVITY, ENGINE],
  ],
  flowsLPerS,
)

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: head of the pump, m', UNBALANCED, 1.7484, 5e-4, PRINTED, NEWTON],
    ['balanced: head of the pump, m', BALANCED, 1.7978, 5e-4, PRINTED, NEWTON],
  ],
  (valves) => {
    const pumpedLPerMin = (flowsLPerS(valves)[3] ?? Number.NaN) * S_PER_MIN
    return PUMP.shutOffHeadM - PUMP.headDropMPerLPerMin2 * pumpedLPerMin ** 2
  },
)

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: flow of each riser and of the loop over the simulated day, L/s', UNBALANCED, [0.04259, 0.03542, 0.0284, 0.10641], { share: 0.005 }, 'the goal for a whole day; friction alone agrees to 0.05 %', NEWTON],
    ['balanced, over the simulated day', BALANCED, [0.0318, 0.0318, 0.0318, 0.09539], { share: 0.005 }, 'the goal for a whole day; friction alone agrees to 0.05 %', NEWTON],
  ],
  (valves) => LOOP.map((name) => (pipeOf(valves, name)?.flowLPerMin.mean ?? Number.NaN) / S_PER_MIN),
)

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: tops of the risers, feet of the returns, water back at the heater, °C', UNBALANCED, [59.054, 58.639, 57.845, 58.285, 57.728, 56.739, 57.25], 0.1, 'the goal for a whole day; a probe in the field is good to some tenths', NEWTON],
    ['balanced', BALANCED, [58.773, 58.516, 58.007, 57.756, 57.506, 57.013, 56.937], 0.1, 'the goal for a whole day; a probe in the field is good to some tenths', NEWTON],
  ],
  (valves) => [...TOPS, ...RISERS, 'footA S'].map((name) => pipeOf(valves, name)?.end.temperatureC.mean),
)

// biome-ignore format: a table, one row a line
hold<Valves>(
  [
    ['unbalanced: heat given to the air, W', UNBALANCED, 1203.7, { share: 0.005 }, 'flows of half a percent', NEWTON],
    ['balanced', BALANCED, 1201.6, { share: 0.005 }, 'flows of half a percent', NEWTON],
  ],
  (valves) => days.get(valves)?.pipes.reduce((sum, { heatLossW }) => sum + heatLossW, 0),
)
