import { expect, test } from 'vitest'
import { simulateDay } from './simulate.ts'
import { evenly, smallNetwork } from './small-networks.fixture.ts'

/** A storage heater of 300 L from which little is drawn: its unheated layer takes weeks to come to what it holds. */
const slowStore = smallNetwork({
  nodes: {
    entry: { sourceC: 12 },
    store: { vessel: { volumeL: 300, layers: 4, heatedFromLayer: 1, setpointC: 60, lossWPerK: 2, ambientC: 22 } },
    tap: 'junction',
  },
  pipes: { 'entry store': {}, 'store tap': {} },
  outlets: { tap: { hot: 'tap', draws: evenly(2, { minutes: 1, flowLPerMin: 4 }) } },
})
const STORE = 1

test('a day repeats only when the layers of vessels do too', () => {
  const day = simulateDay(slowStore)
  expect(day.repeats).toBe(true)
  // a layer of 75 L that 8 L a day go through forgets what it began with as exp(-t / 9.4 days)
  const bottomC = (12 * 8 + lossLPerDay * 22) / (8 + lossLPerDay)
  expect(bottomC).toBeLessThan(22)
  expect(day.nodes[STORE]?.hoursInGrowthBand).toBe(0)
  expect(day.daysUntilRepeating).toBeGreaterThan(9)
  const longer = simulateDay(slowStore, { mostDays: day.daysUntilRepeating - 1 }).nodes[STORE]
  expect(Math.abs((day.nodes[STORE]?.growthIndex ?? 1) - (longer?.growthIndex ?? 0))).toBeLessThan(0.005)
})

/** A quarter of 2 W/K, in litres of water a day: 1 W is 20.6 L·K a day at 4180 J to the litre and kelvin. */
const lossLPerDay = (0.5 * 86_400) / 4180
