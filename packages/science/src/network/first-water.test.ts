import { expect, test } from 'vitest'
import { growthIndexOf } from './growth.ts'
import type { Vessel } from './network.ts'
import { simulateDay } from './simulate.ts'
import { evenly, smallNetwork } from './small-networks.fixture.ts'

/** A vessel on a branch on which nobody draws, and a tap elsewhere. */
const unused = (vessel: Partial<Vessel>) =>
  smallNetwork({
    nodes: { entry: { sourceC: 12 }, foot: 'junction', tank: { vessel }, never: 'junction', tap: 'junction' },
    pipes: { 'entry foot': {}, 'foot tank': {}, 'tank never': {}, 'foot tap': {} },
    outlets: {
      never: { cold: 'never', draws: [] },
      tap: { cold: 'tap', draws: evenly(6, { minutes: 2, flowLPerMin: 6 }) },
    },
  })
const TANK = 2
const CAP_HOURS = 720

test('what stands in a vessel nobody draws from is as old as is told, as warm as its air, without residual', () => {
  const { nodes, daysUntilRepeating, repeats } = simulateDay(unused({ volumeL: 500, lossWPerK: 5, ambientC: 28 }))
  const tank = nodes[TANK]
  expect(repeats).toBe(true)
  expect(daysUntilRepeating).toBeLessThan(5)
  expect(tank?.ageHours.min).toBe(CAP_HOURS)
  expect(tank?.temperatureC.mean).toBeCloseTo(28, 9)
  expect(tank?.residualMgPerL.max).toBe(0)
  expect(tank?.hoursInGrowthBand).toBeCloseTo(24, 9)
  const warmest = growthIndexOf({ meanGrowth: 1, meanFavour: 0, longestStagnationHours: 24 })
  expect(tank?.growthIndex).toBeGreaterThan(0.9 * warmest)
})

test('a heater nobody draws from is at its set point above its heating, and as warm as the air below', () => {
  const layered = { volumeL: 200, layers: 3, heatedFromLayer: 1, setpointC: 60, lossWPerK: 2, ambientC: 28 }
  const { nodes, daysUntilRepeating } = simulateDay(unused(layered))
  expect(daysUntilRepeating).toBeLessThan(5)
  expect(nodes[TANK]?.temperatureC.mean).toBeCloseTo(60, 9)
  // the worst layer counts for what may grow: the unheated one
  expect(nodes[TANK]?.hoursInGrowthBand).toBeCloseTo(24, 9)
})

test('the figures of an unused vessel are the same however many days are simulated', () => {
  const network = unused({ volumeL: 500, lossWPerK: 5, ambientC: 23 })
  const [few, many] = [2, 30].map((mostDays) => simulateDay(network, { mostDays }).nodes[TANK])
  expect(few).toEqual(many)
})
