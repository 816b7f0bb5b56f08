import { expect, test } from 'vitest'
import { simulateDay } from './simulate.ts'
import { evenly, smallNetwork } from './small-networks.fixture.ts'

const ALWAYS = (flowLPerMin: number) => [{ startMinute: 0, minutes: 1440, flowLPerMin }]

/** A valve for 40 °C between 60 and 10 °C without losses, whose hot and cold pipes run on to taps of their own. */
const runningOn = (draws: {
  tap: ReturnType<typeof evenly>
  hot: ReturnType<typeof evenly>
  cold: ReturnType<typeof evenly>
}) =>
  smallNetwork({
    nodes: {
      cold: { sourceC: 10 },
      boiler: { sourceC: 60 },
      c: 'junction',
      h: 'junction',
      m: 'mixed',
      tap: 'junction',
      hotTap: 'junction',
      coldTap: 'junction',
    },
    pipes: {
      'boiler h': { lossWPerMK: 0 },
      'cold c': { lossWPerMK: 0 },
      'm tap': { lossWPerMK: 0 },
      'h hotTap': { lossWPerMK: 0 },
      'c coldTap': { lossWPerMK: 0 },
    },
    outlets: {
      tap: { hot: 'tap', draws: draws.tap },
      hotTap: { hot: 'hotTap', draws: draws.hot },
      coldTap: { cold: 'coldTap', draws: draws.cold },
    },
    valves: { valve: { hot: 'h', cold: 'c', mixed: 'm', setpointC: 40 } },
  })

test('a valve takes its water beside what is drawn beyond its ports', () => {
  const { pipes, balance, outlets } = simulateDay(runningOn({ tap: ALWAYS(2), hot: ALWAYS(1), cold: ALWAYS(0.5) }))
  // 40 °C is three fifths of 60 and two of 10
  for (const [at, lPerMin] of [2 * 0.6 + 1, 2 * 0.4 + 0.5, 2, 1, 0.5].entries())
    expect(pipes[at]?.flowLPerMin.mean).toBeCloseTo(lPerMin, 9)
  expect(outlets[0]?.temperatureC.mean).toBeCloseTo(40, 6)
  expect(balance.massErrorFraction).toBeLessThan(1e-9)
  expect(balance.energyErrorFraction).toBeLessThan(1e-9)
})

test.each([1, 5])('so it does in draws that begin and end, with mains in steps of %i minutes', (mainMinutes) => {
  const draws = {
    tap: evenly(20, { minutes: 3, flowLPerMin: 6 }),
    hot: evenly(13, { minutes: 2, flowLPerMin: 5 }),
    cold: evenly(7, { minutes: 4, flowLPerMin: 5 }),
  }
  const { pipes, balance } = simulateDay(runningOn(draws), { mainMinutes })
  const [hotL = 0, coldL = 0] = pipes.map(({ flowLPerMin }) => flowLPerMin.mean * 1440)
  expect(hotL).toBeCloseTo(20 * 18 * 0.6 + 13 * 10, 6)
  expect(coldL).toBeCloseTo(20 * 18 * 0.4 + 7 * 20, 6)
  expect(balance.massErrorFraction).toBeLessThan(1e-9)
  expect(balance.energyErrorFraction).toBeLessThan(1e-9)
})

test('two valves may take from one port', () => {
  const network = smallNetwork({
    nodes: {
      cold: { sourceC: 10 },
      boiler: { sourceC: 60 },
      c: 'junction',
      h: 'junction',
      one: 'mixed',
      two: 'mixed',
      a: 'junction',
      b: 'junction',
    },
    pipes: { 'boiler h': { lossWPerMK: 0 }, 'cold c': { lossWPerMK: 0 }, 'one a': {}, 'two b': {} },
    outlets: { a: { hot: 'a', draws: ALWAYS(2) }, b: { hot: 'b', draws: ALWAYS(1) } },
    valves: {
      one: { hot: 'h', cold: 'c', mixed: 'one', setpointC: 40 },
      two: { hot: 'h', cold: 'c', mixed: 'two', setpointC: 35 },
    },
  })
  const { pipes, balance } = simulateDay(network)
  expect(pipes[0]?.flowLPerMin.mean).toBeCloseTo(2 * 0.6 + 0.5, 9)
  expect(pipes[1]?.flowLPerMin.mean).toBeCloseTo(2 * 0.4 + 0.5, 9)
  expect(balance.massErrorFraction).toBeLessThan(1e-9)
  expect(balance.energyErrorFraction).toBeLessThan(1e-9)
})
