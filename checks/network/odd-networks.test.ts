// Networks that nobody would build, and parts of those that somebody did: no hang, no NaN, and balances below 0.1 %.
import type { SimulatedDay } from '@rillmark/science/network/day-result.ts'
import type { Draw, Network } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { expect, test } from 'vitest'
import { building } from '../../benchmarks/network/buildings.ts'
import { build, constant } from './build.ts'

const PIPE = { lengthM: 5, boreMm: 13, lossWPerMK: 0.2 }
const WARM = { source: { temperatureC: 55 } }
const MORNING: readonly Draw[] = [{ startMinute: 420, minutes: 8, flowLPerMin: 6 }]
const EVENING: readonly Draw[] = [{ startMinute: 1140, minutes: 8, flowLPerMin: 6 }]
/** Past midnight. */
const NIGHT: readonly Draw[] = [{ startMinute: 1436, minutes: 10, flowLPerMin: 6 }]
const DECAYS = { bulkPerHour: 0.1, wallMPerHour: 0.001, activationKJPerMol: 50 }
const PUMP = { shutOffHeadM: 2, headDropMPerLPerMin2: 0.006 }

const ring = (draws: Parameters<typeof build>[0]['draws']) =>
  build({
    nodes: { entry: WARM, a: 'junction', b: 'junction', c: 'junction', d: 'junction' },
    pipes: { 'entry a': PIPE, 'a b': PIPE, 'b c': PIPE, 'c d': PIPE, 'd a': PIPE },
    draws,
    chemistry: DECAYS,
  })
const line = (pipe: object, draw: number | readonly Draw[]) =>
  build({
    nodes: { entry: WARM, middle: 'junction', tap: 'junction', end: 'junction' },
    pipes: { 'entry middle': PIPE, 'middle tap': { ...PIPE, ...pipe }, 'middle end': PIPE },
    draws: { tap: draw },
    chemistry: DECAYS,
  })
const heated = (heater: 'instant' | 'store') =>
  build({
    nodes: {
      entry: { source: { temperatureC: 12 } },
      heater:
        heater === 'instant' ? { heater: { setpointC: 60 } } : { vessel: { volumeL: 150, layers: 3, setpointC: 60 } },
      far: 'junction',
      tap: 'junction',
    },
    pipes: {
      'entry heater': PIPE,
      'heater far': { ...PIPE, lengthM: 30, boreMm: 20, pump: PUMP },
      'far heater': { ...PIPE, lengthM: 30, returning: true },
      'far tap': PIPE,
    },
    draws: { tap: MORNING },
    chemistry: DECAYS,
  })

const times = (count: number, draw: Omit<Draw, 'startMinute'>): readonly Draw[] =>
  Array.from({ length: count }, (_, nth) => ({ startMinute: (1440 / count) * (nth + 0.5), ...draw }))
const HOT_AND_COLD = { cold: { source: { temperatureC: 10 } }, hot: { source: { temperatureC: 60 } } }
const TWO_VALVES = {
  upper: { hot: 'h', cold: 'c', setpointC: 50 },
  lower: { hot: 'far', cold: 'c2', setpointC: 38 },
}
/** A valve feeds the hot side of another; hot and cold run on past the first, to taps of their own. */
const inARow = (valves: Parameters<typeof build>[0]['valves']) =>
  build({
    nodes: {
      ...HOT_AND_COLD,
      h: 'junction',
      c: 'junction',
      upper: 'mixed',
      far: 'junction',
      c2: 'junction',
      lower: 'mixed',
      tap: 'junction',
      hotTap: 'junction',
    },
    pipes: {
      'hot h': PIPE,
      'cold c': PIPE,
      'upper far': PIPE,
      'cold c2': PIPE,
      'lower tap': PIPE,
      'h hotTap': PIPE,
    },
    draws: {
      tap: times(9, { minutes: 3, flowLPerMin: 8 }),
      hotTap: times(5, { minutes: 4, flowLPerMin: 5 }),
      c: times(7, { minutes: 2, flowLPerMin: 6 }),
    },
    ...(valves && { valves }),
    chemistry: DECAYS,
  })
/** A valve for 24.5 °C on a tank in a warm room that at first is warmer than that: no hot water for days. */
const warmRoom = build({
  nodes: {
    ...HOT_AND_COLD,
    tank: { vessel: { volumeL: 2000, lossWPerK: 20, ambientC: 40 } },
    c: 'junction',
    h: 'junction',
    valve: 'mixed',
    tap: 'junction',
  },
  pipes: { 'cold tank': PIPE, 'tank c': PIPE, 'hot h': PIPE, 'valve tap': PIPE },
  draws: { tap: times(24, { minutes: 4, flowLPerMin: 6 }) },
  valves: { valve: { hot: 'h', cold: 'c', setpointC: 24.5 } },
  chemistry: DECAYS,
})
const mixing = (wanted: readonly number[]) =>
  build({
    nodes: { ...HOT_AND_COLD, h: 'junction', c: 'junction', end: 'junction' },
    pipes: { 'hot h': PIPE, 'cold c': PIPE, 'c end': PIPE },
    draws: {},
    mixers: Object.fromEntries(
      wanted.map((mixToC, nth) => [
        `mixer ${nth}`,
        { hot: 'h', cold: 'c', draw: times(3 + nth, { minutes: 1 + 2 * nth, flowLPerMin: 6, mixToC }) },
      ]),
    ),
    chemistry: DECAYS,
  })
/** Of two of everything one is used. */
const unused = build({
  nodes: {
    entry: { source: { temperatureC: 12 } },
    tank: { vessel: { volumeL: 300, lossWPerK: 3, ambientC: 25 } },
    store: { vessel: { volumeL: 150, layers: 3, heatedFromLayer: 1, setpointC: 60, lossWPerK: 2 } },
    heater: { heater: { setpointC: 60 } },
    h: 'junction',
    c: 'junction',
    valve: 'mixed',
    warm: 'junction',
    tap: 'junction',
  },
  pipes: {
    'entry tank': PIPE,
    'entry store': PIPE,
    'entry heater': PIPE,
    'store h': PIPE,
    'tank c': PIPE,
    'valve warm': PIPE,
    'entry tap': PIPE,
  },
  draws: { warm: [], tap: MORNING },
  valves: { valve: { hot: 'h', cold: 'c', setpointC: 40 } },
  chemistry: DECAYS,
})

/** Networks in which taps or valves mix; balances are to rounding there. */
const MIXED: Record<string, Network> = {
  'a mixer that wants what there is and what there is not': mixing([38, 5, 70, 60, 10]),
  'valves in a row, the upper first': inARow(TWO_VALVES),
  'valves in a row, the lower first': inARow({ lower: TWO_VALVES.lower, upper: TWO_VALVES.upper }),
  'a valve that takes no hot water for days': warmRoom,
  'a tank, a store, a heater and a valve that nobody uses': unused,
}

const NETWORKS: Record<string, Network> = {
  ...MIXED,
  'a dead end': line({}, MORNING),
  'nothing drawn at all': ring({}),
  'a tap never opened': ring({ b: MORNING, c: [] }),
  'a pipe of a millimetre': line({ lengthM: 0.001 }, MORNING),
  'a pipe of half a millimetre bore': line({ lengthM: 1, boreMm: 0.5 }, constant(0.001)),
  'a pipe of ten kilometres': line({ lengthM: 10_000 }, MORNING),
  'a tap that draws a whole pipe many times a minute': line({}, constant(60)),
  'a drop a minute': line({}, constant(0.00005)),
  'a ring whose flow turns between morning and evening': ring({ b: MORNING, d: EVENING, c: NIGHT }),
  'a draw past midnight': line({}, NIGHT),
  'a loop with an instant heater': heated('instant'),
  'a loop through a store': heated('store'),
  'a return of more than is drawn': build({
    nodes: { entry: { source: {} }, store: { vessel: { volumeL: 20, setpointC: 60 } }, far: 'junction' },
    pipes: { 'entry store': PIPE, 'store far': PIPE, 'far store': { ...PIPE, returning: true, fixedFlowLPerMin: 15 } },
    draws: { far: 0.1 },
  }),
  'two sources': build({
    nodes: { one: WARM, two: { source: { temperatureC: 10 } }, tap: 'junction' },
    pipes: { 'one tap': PIPE, 'two tap': { ...PIPE, lengthM: 50 } },
    draws: { tap: MORNING },
  }),
  'a tree of 500 pipes': building({ pipes: 500, shape: 'tree', seed: 3 }),
  'pumped rings of 500 pipes': building({ pipes: 500, shape: 'rings', seed: 3 }),
  'returns of 500 pipes': building({ pipes: 500, shape: 'returns', seed: 3 }),
}

/** Paths of numbers that are none, or impossible. */
function badNumbers(value: unknown, path = 'day'): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`]
  if (value instanceof Float32Array) return value.some((each) => !Number.isFinite(each)) ? [path] : []
  if (value === null || typeof value !== 'object') return []
  return Object.entries(value).flatMap(([key, inner]) => badNumbers(inner, `${path}.${key}`))
}

function outOfRange({ pipes, nodes, outlets }: SimulatedDay): string[] {
  const places = [...pipes.map(({ end }) => end), ...nodes, ...outlets.flatMap((outlet) => (outlet ? [outlet] : []))]
  return places.flatMap((place, at) => {
    const { ageHours, temperatureC, residualMgPerL } = place
    const right =
      ageHours.min >= 0 &&
      temperatureC.min >= 9.9 &&
      temperatureC.max <= 60.1 &&
      residualMgPerL.min >= 0 &&
      residualMgPerL.max <= 1.0001 &&
      [ageHours, temperatureC, residualMgPerL].every(({ min, mean, max }) => min <= mean + 1e-6 && mean <= max + 1e-6)
    return right ? [] : [`${at}: ${JSON.stringify(place)}`]
  })
}

/** Pipes that are said never to move and have a flow, or the other way round. */
const wronglyStill = ({ pipes }: SimulatedDay): number[] =>
  pipes.flatMap(({ flowLPerMin: { min, max }, end }, at) => (end.neverMoves === (min === 0 && max === 0) ? [] : [at]))

test.each(Object.entries(NETWORKS))(
  '%s: numbers everywhere, within what can be, balanced',
  (_, network) => {
    const day = simulateDay(network, { slots: 96 })
    expect(badNumbers(day).slice(0, 5)).toEqual([])
    expect(outOfRange(day).slice(0, 5)).toEqual([])
    expect(wronglyStill(day)).toEqual([])
    expect(day.balance.massErrorFraction).toBeLessThan(1e-3)
    expect(day.balance.energyErrorFraction).toBeLessThan(1e-3)
  },
  120_000,
)

test.each(
  Object.entries(MIXED).flatMap(([name, network]) => [1, 5].map((mainMinutes) => ({ name, network, mainMinutes }))),
)(
  '$name: mass and heat are kept to rounding on every day, mains in steps of $mainMinutes',
  ({ network, mainMinutes }) => {
    for (const mostDays of [1, 2, 3, 5, 8, 60]) {
      const day = simulateDay(network, { mainMinutes, mostDays })
      expect(day.balance.massErrorFraction).toBeLessThan(1e-9)
      expect(day.balance.energyErrorFraction).toBeLessThan(1e-9)
      expect(wronglyStill(day)).toEqual([])
    }
  },
)

test('the day is the same in whatever order valves are listed', () => {
  const lowerFirst = { lower: TWO_VALVES.lower, upper: TWO_VALVES.upper }
  expect(simulateDay(inARow(TWO_VALVES))).toEqual(simulateDay(inARow(lowerFirst)))
})

test('what nobody uses is as old as is told and as warm as its air or its heating, after few days', () => {
  const { nodes, daysUntilRepeating } = simulateDay(unused)
  const [, tank, store, heater, , , valve] = nodes
  for (const place of [tank, store, heater, valve]) expect(place?.ageHours.min).toBe(720)
  expect([tank, store, heater, valve].map((place) => place?.temperatureC.mean)).toEqual([25, 60, 20, 20])
  expect([tank, heater, valve].every((place) => place?.neverMoves)).toBe(true)
  expect(daysUntilRepeating).toBeLessThan(5)
})

test('constant draws are the steady state: every figure of a moving place is the same all day', () => {
  const { pipes } = simulateDay(ring({ b: 0.5, c: 0.3, d: 0.1 }))
  const spans = pipes.flatMap(({ end }) => [end.ageHours, end.temperatureC, end.residualMgPerL])
  expect(Math.max(...spans.map(({ min, max, mean }) => (max - min) / mean))).toBeLessThan(1e-6)
})

test('a draw that runs past midnight is drawn whole', () => {
  const { outlets } = simulateDay(line({}, NIGHT))
  expect(outlets[0]?.drawnL).toBeCloseTo(60, 6)
})

test('a dead end that never moves says so', () => {
  const { pipes } = simulateDay(line({}, MORNING))
  expect(pipes[2]?.end.neverMoves).toBe(true)
  expect(pipes[1]?.end.neverMoves).toBe(false)
})

test('a hundred thousand pipes end, in numbers', () => {
  const network = building({ pipes: 100_000, shape: 'tree', seed: 5 })
  const day = simulateDay(network, { mostDays: 1, stepMinutes: 5 })
  expect(day.pipes).toHaveLength(network.pipes.length)
  expect(badNumbers(day).slice(0, 5)).toEqual([])
}, 300_000)
