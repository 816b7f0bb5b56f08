import { expect, test } from 'vitest'
import { simulateDay } from './simulate.ts'
import { evenly, smallNetwork } from './small-networks.fixture.ts'

/**
 * A valve for 24.5 °C on a cold tank in a hot room and a hot supply. The first guess has the tank warmer than the valve wants, so that
 * its hot pipe rests for days; what then is drawn from the tank alone cools it, and the hot pipe runs.
 */
const network = smallNetwork({
  nodes: {
    street: { sourceC: 12 },
    boiler: { sourceC: 60 },
    tank: { vessel: { volumeL: 2000, lossWPerK: 20, ambientC: 40 } },
    cold: 'junction',
    hot: 'junction',
    mixed: 'mixed',
    tap: 'junction',
  },
  pipes: { 'street tank': {}, 'tank cold': {}, 'boiler hot': { wallHeatJPerMK: 200 }, 'mixed tap': {} },
  outlets: { tap: { hot: 'tap', draws: evenly(24, { minutes: 4, flowLPerMin: 6 }) } },
  valves: { valve: { hot: 'hot', cold: 'cold', mixed: 'mixed', setpointC: 24.5 } },
})
const [TANK, HOT] = [2, 2]

test('a pipe that rested for a whole day, or several, runs when water is drawn from it, and its books are kept', () => {
  const first = simulateDay(network, { mostDays: 1 })
  expect(first.pipes[HOT]?.end.neverMoves).toBe(true)
  expect(first.nodes[TANK]?.temperatureC.mean).toBeGreaterThan(24.5)
  for (let mostDays = 2; mostDays <= 12; mostDays++) {
    const day = simulateDay(network, { mostDays })
    expect(day.balance.massErrorFraction).toBeLessThan(1e-9)
    expect(day.balance.energyErrorFraction).toBeLessThan(1e-9)
  }
  const day = simulateDay(network)
  const { flowLPerMin, end } = day.pipes[HOT] ?? {}
  expect(day.repeats).toBe(true)
  expect(flowLPerMin?.mean).toBeGreaterThan(0.005)
  expect(end?.neverMoves).toBe(false)
  // 56 minutes between two draws
  expect(end?.longestStagnationHours).toBeCloseTo(56 / 60, 6)
  expect(end?.ageHours.mean).toBeLessThan(24)
  expect(day.outlets[0]?.temperatureC.mean).toBeGreaterThan(23.5)
})
