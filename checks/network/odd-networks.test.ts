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

const NETWORKS: Record<string, Network> = {
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

test.each(Object.entries(NETWORKS))(
  '%s: numbers everywhere, within what can be, balanced',
  (_, network) => {
    const day = simulateDay(network, { slots: 96 })
    expect(badNumbers(day).slice(0, 5)).toEqual([])
    expect(outOfRange(day).slice(0, 5)).toEqual([])
    expect(day.balance.massErrorFraction).toBeLessThan(1e-3)
    expect(day.balance.energyErrorFraction).toBeLessThan(1e-3)
  },
  120_000,
)

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
