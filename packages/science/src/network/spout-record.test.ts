import { expect, test } from 'vitest'
import { simulateDay } from './simulate.ts'
import { smallNetwork } from './small-networks.fixture.ts'

const TIMES = 10

test.each([0.2, 1, 5])('minutes of draw are those drawn, in steps of %f minutes', (stepMinutes) => {
  // wanted is more than there is, so that every draw is too cold throughout
  const draws = Array.from({ length: TIMES }, (_, nth) => ({
    startMinute: 60 * nth + 60,
    minutes: 0.2,
    flowLPerMin: 6,
    mixToC: 38,
  }))
  const network = smallNetwork({
    nodes: { cold: { sourceC: 10 }, warm: { sourceC: 30 }, c: 'junction', h: 'junction' },
    pipes: { 'cold c': {}, 'warm h': {} },
    outlets: { tap: { hot: 'h', cold: 'c', draws } },
  })
  const [outlet] = simulateDay(network, { stepMinutes, mostDays: 2 }).outlets
  expect(outlet?.minutesDrawn).toBeCloseTo(TIMES * 0.2, 9)
  expect(outlet?.minutesBelowUseC).toBeCloseTo(TIMES * 0.2, 9)
  expect(outlet?.drawnL).toBeCloseTo(TIMES * 1.2, 6)
})
