// Three risers on one pumped loop: flows with answers known from two independent solvers.
import { makeFlowField } from '@rillmark/science/network/make-flow-field.ts'
import type { NetworkPipe } from '@rillmark/science/network/network.ts'
import { type From, hold } from '../rows.ts'
import { build } from './build.ts'

const NEWTON: From = 'computed: independent Newton solution, Swamee-Jain, 64/Re and the cubic between, 0.474 mm²/s'
const ENGINE: From = 'computed: EPANET engine 2.3.5'
const PRINTED = 'flows are printed to four digits; the viscosity of water at 60 °C to three'
const GRAVITY = 'the engine takes 32.2 ft/s² and its own viscosity of 60 °C water'
const S_PER_MIN = 60

/** 2.0 m − 22.222 q², q in L/s. */
const PUMP = { shutOffHeadM: 2, headDropMPerLPerMin2: 22.222 / S_PER_MIN ** 2 }
const copper = (lengthM: number, rest: Partial<NetworkPipe> & { boreMm: number }) => ({
  roughnessMm: 0.0015,
  lengthM,
  ...rest,
})

/** Flows (L/s) of the three return risers, then of the pump. */
function flowsLPerS([first, second, third]: readonly [number, number, number]): number[] {
  const network = build({
    nodes: {
      heater: { heater: { setpointC: 60 } },
      P: 'junction',
      ...Object.fromEntries(
        ['A', 'B', 'C', 'topA', 'topB', 'topC', 'footA', 'footB', 'footC'].map((name) => [name, 'junction']),
      ),
    },
    pipes: {
      'heater P': copper(0, { boreMm: 25, pump: PUMP }),
      'P A': copper(10, { boreMm: 25 }),
      'A B': copper(10, { boreMm: 20 }),
      'B C': copper(10, { boreMm: 16 }),
      'A topA': copper(20, { boreMm: 16 }),
      'B topB': copper(20, { boreMm: 16 }),
      'C topC': copper(20, { boreMm: 16 }),
      'topA footA': copper(20, { boreMm: 10, fittingLoss: first }),
      'topB footB': copper(20, { boreMm: 10, fittingLoss: second }),
      'topC footC': copper(20, { boreMm: 10, fittingLoss: third }),
      'footC footB': copper(10, { boreMm: 10 }),
      'footB footA': copper(10, { boreMm: 13 }),
      'footA heater': copper(10, { boreMm: 13 }),
    },
    draws: {},
  })
  const field = makeFlowField(network)
  field.settle()
  return [7, 8, 9, 0].map((at) => (field.flows[at] as number) / S_PER_MIN)
}

// biome-ignore format: a table, one row a line
hold<readonly [number, number, number]>(
  [
    ['all valves open', [5, 5, 5], [0.04259, 0.03542, 0.0284, 0.10641], { share: 5e-4 }, PRINTED, NEWTON],
    ['balanced to equal flow', [76.4608, 41.15599, 5], [0.0318, 0.0318, 0.0318, 0.09539], { share: 5e-4 }, PRINTED, NEWTON],
    ['all valves open', [5, 5, 5], [0.04261, 0.03543, 0.02841, 0.10645], { share: 2e-3 }, GRAVITY, ENGINE],
    ['balanced to equal flow', [76.4608, 41.15599, 5], [0.03181, 0.03181, 0.03181, 0.09543], { share: 2e-3 }, GRAVITY, ENGINE],
  ],
  flowsLPerS,
)

// biome-ignore format: a table, one row a line
hold<readonly [number, number, number]>(
  [
    ['head of the pump (m), all valves open', [5, 5, 5], 1.7484, 5e-4, PRINTED, NEWTON],
    ['head of the pump (m), balanced', [76.4608, 41.15599, 5], 1.7978, 5e-4, PRINTED, NEWTON],
  ],
  (valves) => {
    const pumped = (flowsLPerS(valves)[3] as number) * S_PER_MIN
    return PUMP.shutOffHeadM - PUMP.headDropMPerLPerMin2 * pumped * pumped
  },
)
