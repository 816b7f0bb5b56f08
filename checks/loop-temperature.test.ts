// Temperatures around a hot-water loop.
import { loopTemperature } from '@rillmark/science/heat/loop-temperature.ts'
import { type From, hold } from './rows.ts'

const RISERS: From =
  'computed: flows by an independent Newton solution and a network engine, T = Ta + (T0 - Ta) exp(-U L/(m cp))'
const SHORT: From = 'computed: flow for 750 W, 11 and 7 W/m of an installer’s short method (memory)'
const SIZING: From = 'computed: 18 000 Btu/h / (500 x 10 °F) of a sizing question in print (its data seen)'
const ROUND = 'flows are printed to four digits and heat capacity is taken as one'

type Flows = [number, number, number]
const S_PER_MIN = 60

/** Supply of 3 x 10 m, risers of 20 m, return risers of 20 m, collector of 3 x 10 m, 0.20 W/(m K) everywhere, 60 in 25 °C. */
function threeRisers(flows: Flows) {
  const [q1, q2, q3] = flows.map((each) => each * S_PER_MIN) as Flows
  const pipe = (name: string, lengthM: number, rest: { flowLPerMin: number; after?: string[] }) => ({
    name,
    lengthM,
    lossWPerMK: 0.2,
    ...rest,
  })
  return loopTemperature({
    segments: [
      pipe('PA', 10, { flowLPerMin: q1 + q2 + q3 }),
      pipe('AB', 10, { flowLPerMin: q2 + q3, after: ['PA'] }),
      pipe('BC', 10, { flowLPerMin: q3, after: ['AB'] }),
      pipe('riser 1', 20, { flowLPerMin: q1, after: ['PA'] }),
      pipe('riser 2', 20, { flowLPerMin: q2, after: ['AB'] }),
      pipe('riser 3', 20, { flowLPerMin: q3, after: ['BC'] }),
      pipe('return 1', 20, { flowLPerMin: q1, after: ['riser 1'] }),
      pipe('return 2', 20, { flowLPerMin: q2, after: ['riser 2'] }),
      pipe('return 3', 20, { flowLPerMin: q3, after: ['riser 3'] }),
      pipe('CB', 10, { flowLPerMin: q3, after: ['return 3'] }),
      pipe('BA', 10, { flowLPerMin: q2 + q3, after: ['CB', 'return 2'] }),
      pipe('AS', 10, { flowLPerMin: q1 + q2 + q3, after: ['BA', 'return 1'] }),
    ],
    flowLPerMin: q1 + q2 + q3,
    startC: 60,
    ambientC: 25,
  })
}

const UNBALANCED: Flows = [0.04259, 0.03542, 0.0284]
const BALANCED: Flows = [0.0318, 0.0318, 0.0318]

// biome-ignore format: a table, one row a line
hold<Flows>(
  [
    ['three risers, unbalanced: tops, feet and return', UNBALANCED, [59.054, 58.639, 57.845, 58.285, 57.728, 56.739, 57.25], 0.005, ROUND, RISERS],
    ['three risers, balanced: tops, feet and return', BALANCED, [58.773, 58.516, 58.007, 57.756, 57.506, 57.013, 56.937], 0.005, ROUND, RISERS],
  ],
  (flows) => {
    const { segments, returnC } = threeRisers(flows)
    return [...segments.slice(3, 9).map(({ endC }) => endC), returnC]
  },
)

// biome-ignore format: a table, one row a line
hold<Flows>(
  [
    ['three risers, unbalanced: heat, W', UNBALANCED, 1203.7, { share: 1e-3 }, ROUND, RISERS],
    ['three risers, balanced: heat, W', BALANCED, 1201.6, { share: 1e-3 }, ROUND, RISERS],
  ],
  (flows) => threeRisers(flows).heatW,
)

type Loop = { watts: readonly (readonly [lengthM: number, wattsPerM: number])[]; flowLPerMin: number }
/** The loss of each stretch at a difference of 40 K. */
const drop = ({ watts, flowLPerMin }: Loop) =>
  loopTemperature({
    segments: watts.map(([lengthM, wattsPerM]) => ({ lengthM, lossWPerMK: wattsPerM / 40 })),
    flowLPerMin,
    startC: 60,
    ambientC: 20,
  }).dropK
const STRETCHES = [
  [30, 11],
  [60, 7],
] as const
const FALLS = 'the method takes the loss as the same all along; it falls by up to a sixteenth as the water cools'
const FOOT = 0.3048
const W_PER_M = 0.96152
const FEET = [
  [1000 * FOOT, 15 * W_PER_M],
  [300 * FOOT, 10 * W_PER_M],
] as const

// biome-ignore format: a table, one row a line
hold<Loop>(
  [
    ['750 W and 328 L/h: 2 K', { watts: STRETCHES, flowLPerMin: 328 / 60 }, 2, { share: 0.035 }, FALLS, SHORT],
    ['750 W and 131 L/h: 5 K', { watts: STRETCHES, flowLPerMin: 131 / 60 }, 5, { share: 0.07 }, FALLS, SHORT],
    ['trap: return included, 1300 ft at 3.6 gpm: 10 °F', { watts: FEET, flowLPerMin: 3.6 * 3.785411784 }, 10 / 1.8, { share: 0.08 }, `500 Btu/h per gpm and °F is of cold water; ${FALLS}`, SIZING],
    ['the same at 7.2 gpm: 5 °F', { watts: FEET, flowLPerMin: 7.2 * 3.785411784 }, 5 / 1.8, { share: 0.05 }, `500 Btu/h per gpm and °F is of cold water; ${FALLS}`, SIZING],
  ],
  drop,
)
