import { expect, test } from 'vitest'
import { simulateDay } from './simulate.ts'
import { evenly, smallNetwork } from './small-networks.fixture.ts'

const CONSTANT = [{ startMinute: 0, minutes: 1440, flowLPerMin: 1 }]
const AIR_C = 20

/** An instant heater and a tap, and another tap that is always used. */
const instant = ({ sourceC, heaterC, draws }: { sourceC: number; heaterC: number; draws: typeof CONSTANT }) =>
  smallNetwork({
    nodes: { entry: { sourceC }, heater: { heaterC }, tap: 'junction', other: 'junction' },
    pipes: { 'entry heater': { lossWPerMK: 0 }, 'heater tap': { lossWPerMK: 0 }, 'entry other': {} },
    outlets: { tap: { hot: 'tap', draws }, other: { cold: 'other', draws: CONSTANT } },
  })
const HEATER = 1

test.each([
  { name: 'fed from the band, set above it', sourceC: 35, heaterC: 60, hours: 0 },
  { name: 'fed from the band, set within it', sourceC: 35, heaterC: 42, hours: 24 },
  { name: 'fed from below, set within the band', sourceC: 12, heaterC: 42, hours: 24 },
  { name: 'fed from the band, set below it', sourceC: 35, heaterC: 22, hours: 24 },
  { name: 'fed from above, set within the band', sourceC: 55, heaterC: 42, hours: 0 },
])('an instant heater is judged by what it sends on: $name', ({ sourceC, heaterC, hours }) => {
  const { nodes, pipes } = simulateDay(instant({ sourceC, heaterC, draws: CONSTANT }))
  const sent = Math.max(sourceC, heaterC)
  expect(nodes[HEATER]?.temperatureC.mean).toBeCloseTo(sent, 6)
  expect(nodes[HEATER]?.hoursInGrowthBand).toBeCloseTo(hours, 6)
  // the pipe behind it, which loses nothing, holds what it sends
  expect(pipes[1]?.end.hoursInGrowthBand).toBeCloseTo(hours, 6)
  expect(Math.abs((nodes[HEATER]?.growthIndex ?? 1) - (pipes[1]?.end.growthIndex ?? 0))).toBeLessThan(0.01)
})

test('an instant heater never used is as its pipes are, and no warmer in the curves', () => {
  const { nodes, series } = simulateDay(instant({ sourceC: 12, heaterC: 60, draws: [] }), { slots: 24 })
  expect(nodes[HEATER]).toMatchObject({ neverMoves: true, temperatureC: { mean: AIR_C }, ageHours: { mean: 720 } })
  expect([...(series?.nodes.temperatureC.slice(HEATER * 24, HEATER * 24 + 24) ?? [])]).toEqual(Array(24).fill(AIR_C))
})

const valve = (draws: typeof CONSTANT) =>
  smallNetwork({
    nodes: {
      cold: { sourceC: 12 },
      boiler: { sourceC: 60 },
      h: 'junction',
      c: 'junction',
      m: 'mixed',
      tap: 'junction',
      other: 'junction',
    },
    pipes: { 'boiler h': {}, 'cold c': {}, 'm tap': {}, 'cold other': {} },
    outlets: { tap: { hot: 'tap', draws }, other: { cold: 'other', draws: CONSTANT } },
    valves: { valve: { hot: 'h', cold: 'c', mixed: 'm', setpointC: 40 } },
  })
const MIXED = 4

test('a valve never drawn from says that its water never moves, in the curves too', () => {
  const { nodes, series } = simulateDay(valve([]), { slots: 24 })
  expect(nodes[MIXED]).toMatchObject({ neverMoves: true, temperatureC: { mean: AIR_C }, ageHours: { mean: 720 } })
  expect([...(series?.nodes.ageHours.slice(MIXED * 24, MIXED * 24 + 24) ?? [])]).toEqual(Array(24).fill(720))
  expect(simulateDay(valve(CONSTANT)).nodes[MIXED]).toMatchObject({ neverMoves: false })
})

test('a tank never drawn from says so; a heater that keeps its water warm is not as its air', () => {
  const withVessel = (setpointC?: number) =>
    smallNetwork({
      nodes: { entry: { sourceC: 12 }, tank: { vessel: { setpointC } }, tap: 'junction', other: 'junction' },
      pipes: { 'entry tank': {}, 'tank tap': {}, 'entry other': {} },
      outlets: {
        tap: { cold: 'tap', draws: [] },
        other: { cold: 'other', draws: evenly(4, { minutes: 1, flowLPerMin: 6 }) },
      },
    })
  expect(simulateDay(withVessel()).nodes[1]?.neverMoves).toBe(true)
  expect(simulateDay(withVessel(60)).nodes[1]).toMatchObject({ neverMoves: false, temperatureC: { mean: 60 } })
})
