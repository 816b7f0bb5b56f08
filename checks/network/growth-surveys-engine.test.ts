/**
 * The surveys of `growth-surveys.test.ts` once more, through the whole simulation of small buildings. The buildings are made
 * up: only the order of the places is compared with what was found, and the same weakness holds.
 */
import type { Draw } from '@rillmark/science/network/network.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { rankCorrelation } from '@rillmark/science/risk/rank-correlation.ts'
import { expect, test } from 'vitest'
import { build, type NetworkWords } from './build.ts'

/** So many draws of 3 min at 4 L/min, evenly over the day. */
const draws = (times: number): Draw[] =>
  Array.from({ length: times }, (_, at) => ({
    startMinute: Math.round((at * 1440) / times) + 10,
    minutes: 3,
    flowLPerMin: 4,
  }))

/** Index of every node by its name. */
function indexOf(words: NetworkWords): Record<string, number> {
  const network = build(words)
  const day = simulateDay(network)
  expect(day.repeats).toBe(true)
  return Object.fromEntries(network.nodes.map(({ id }, at) => [id, day.nodes[at]?.growthIndex ?? Number.NaN]))
}

/** 15 mm bare copper in a room: 0.67 W/(m K) at 38 K (computed, still air), copper of 149 J/(m K). */
const BARE = { boreMm: 13, lossWPerMK: 0.67, lossAtK: 38, lossPower: 0.2, wallHeatJPerMK: 149, ambientC: 23.5 }
const RETURN = { returning: true, fixedFlowLPerMin: 4 }
const NO_CHLORINE = { source: { temperatureC: 18, residualMgPerL: 0 } }
const heater = (setpointC: number) => ({ vessel: { volumeL: 100, setpointC, lossWPerK: 1 } })

// Rhoads et al., Microbiome 2015;3:67 (seen): 125 times more at the low-use tap of a 51 °C loop.
test('pilot heater at 51 °C: the tap not used over the one used daily over the one used three times a day', () => {
  const branch = { ...BARE, lengthM: 5 }
  const index = indexOf({
    nodes: {
      cold: NO_CHLORINE,
      tank: heater(51),
      a: 'junction',
      never: 'junction',
      daily: 'junction',
      often: 'junction',
    },
    pipes: { 'cold tank': {}, 'tank a': {}, 'a tank': RETURN, 'a never': branch, 'a daily': branch, 'a often': branch },
    draws: { never: [], daily: draws(1), often: draws(3) },
    chemistry: { disinfectant: 'none' },
  })
  expect(index['never']).toBeGreaterThan(index['daily'] ?? Number.NaN)
  expect(index['daily']).toBeGreaterThan(index['often'] ?? Number.NaN)
})

// Flannery et al., Emerg Infect Dis 2006;12(4), table 4 (seen): 13, 24, 22, 10 % of outlets below 30, 30 to 39, 40 to 49, above 50 °C.
test('53 buildings: outlets on loops in the middle of each band rank as they were found', () => {
  const found = [13, 24, 22, 10]
  const index = [26, 35, 45, 54].map((setpointC) => {
    const nodes = { cold: NO_CHLORINE, tank: heater(setpointC), a: 'junction', tap: 'junction' } as const
    const pipes = { 'cold tank': {}, 'tank a': {}, 'a tank': RETURN, 'a tap': { lengthM: 0.3 } }
    return (
      indexOf({ nodes, pipes, draws: { tap: draws(96) }, chemistry: { disinfectant: 'none' } })['tap'] ?? Number.NaN
    )
  })
  expect(rankCorrelation(Float64Array.from(index), Float64Array.from(found))).toBe(1)
})

// LeChevallier 2019 (seen): above 10 MPN/100 mL only under 0.1 mg/L of chlorine.
test('distribution systems: the less chlorine a warm supply brings, the higher the index of its taps', () => {
  const index = [0, 0.05, 0.1, 0.5, 1].map((residualMgPerL) => {
    const nodes = { main: { source: { temperatureC: 25, residualMgPerL } }, a: 'junction', tap: 'junction' } as const
    const pipes = { 'main a': { lengthM: 20, boreMm: 20 }, 'a tap': { ...BARE, lengthM: 5, ambientC: 25 } }
    const chemistry = { bulkPerHour: 0.02, wallMPerHour: 0.001 }
    return indexOf({ nodes, pipes, draws: { tap: draws(3) }, chemistry })['tap'] ?? Number.NaN
  })
  expect(index).toEqual(index.toSorted((a, b) => b - a))
  expect(new Set(index).size).toBe(index.length)
})

// Borella et al., Emerg Infect Dis 2004;10:457 (seen): odds 8.1 beyond 10 m of the heater.
test('Italian homes: along a bare riser from a heater at 47 °C, beyond 10 m over nearer', () => {
  const riser = { ...BARE, boreMm: 20, lossWPerMK: 0.932, wallHeatJPerMK: 335, ambientC: 20 }
  const tap = { lengthM: 0.3 }
  const index = indexOf({
    nodes: { cold: NO_CHLORINE, tank: heater(47), a: 'junction', b: 'junction', near: 'junction', far: 'junction' },
    pipes: {
      'cold tank': {},
      'tank a': { ...riser, lengthM: 5 },
      'a b': { ...riser, lengthM: 20 },
      'b tank': { ...riser, ...RETURN, lengthM: 25 },
      'a near': tap,
      'b far': tap,
    },
    draws: { near: draws(96), far: draws(96) },
    chemistry: { disinfectant: 'none' },
  })
  expect(index['far']).toBeGreaterThan(index['near'] ?? Number.NaN)
})
