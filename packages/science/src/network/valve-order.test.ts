import { expect, test } from 'vitest'
import { simulateDay } from './simulate.ts'
import { evenly, smallNetwork } from './small-networks.fixture.ts'
import { downstreamFirst } from './valve-order.ts'

const UPPER = { hot: 'ha', cold: 'ca', mixed: 'ma', setpointC: 50 }
const LOWER = { hot: 'hb', cold: 'cb', mixed: 'mb', setpointC: 38 }

/** A valve for 50 °C feeds the hot port of one for 38 °C. */
const inARow = (valves: Parameters<typeof smallNetwork>[0]['valves']) =>
  smallNetwork({
    nodes: {
      cold: { sourceC: 10 },
      boiler: { sourceC: 60 },
      ha: 'junction',
      ca: 'junction',
      ma: 'mixed',
      hb: 'junction',
      cb: 'junction',
      mb: 'mixed',
      tap: 'junction',
    },
    pipes: { 'boiler ha': {}, 'cold ca': {}, 'ma hb': {}, 'cold cb': {}, 'mb tap': {} },
    outlets: { tap: { hot: 'tap', draws: evenly(12, { minutes: 3, flowLPerMin: 8 }) } },
    ...(valves && { valves }),
  })

test('a valve comes after those that take from it, however they are listed', () => {
  for (const valves of [
    { upper: UPPER, lower: LOWER },
    { lower: LOWER, upper: UPPER },
  ])
    expect(downstreamFirst(inARow(valves)).map(({ id }) => id)).toEqual(['lower', 'upper'])
})

test('valves that feed one another in a round are all kept', () => {
  const network = smallNetwork({
    nodes: {
      s: { sourceC: 10 },
      a: 'junction',
      b: 'junction',
      c: 'junction',
      d: 'junction',
      one: 'mixed',
      two: 'mixed',
    },
    pipes: { 's c': {}, 's d': {}, 'one b': {}, 'two a': {} },
    valves: {
      one: { hot: 'a', cold: 'c', mixed: 'one', setpointC: 40 },
      two: { hot: 'b', cold: 'd', mixed: 'two', setpointC: 40 },
    },
  })
  expect(
    downstreamFirst(network)
      .map(({ id }) => id)
      .toSorted(),
  ).toEqual(['one', 'two'])
})

test.each([1, 5])('the day is the same however they are listed, mains in steps of %i minutes', (mainMinutes) => {
  const day = simulateDay(inARow({ upper: UPPER, lower: LOWER }), { mainMinutes })
  expect(day).toEqual(simulateDay(inARow({ lower: LOWER, upper: UPPER }), { mainMinutes }))
  expect(day.balance.massErrorFraction).toBeLessThan(1e-9)
  expect(day.balance.energyErrorFraction).toBeLessThan(1e-9)
  expect(day.outlets[0]?.temperatureC.mean).toBeGreaterThan(36)
})
