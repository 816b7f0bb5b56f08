// The simulation against the EPANET engine on random networks whose draws start and stop, over a day that repeats. Goal: within 3 % of
// the engine's range at every place, on average over the time in which water comes there. Found: within 1 %, but for wall and trace
// beyond a tank, up to 2.7 %. Single moments differ by up to a tenth of the range, at rings whose flow turns: see below.
//
// Beside what against-engine.test.ts says:
// - We move water in steps of a minute, the engine in half minutes or less, and each mixes at a node what came in a step: a front that
//   passes is up to a minute early or late.
// - Where a ring's flow turns, a little old water more or less is taken back into a pipe and comes out at the next draw.
// - A tank with a return sends what it held before the step. The engine lets the inflow mix in first. Both are off by half of the share
//   that passes in a step, one to each side: with 15 L/min through 150 L, 5 % of the change in that minute.
// - With mains in steps of five minutes, as large networks have them, each node of a main gives the mean of the step: in these small
//   networks, whose pipes hold a minute's flow, up to 7 %.
// - Rings behind a tank are compared with constant draws only: with these the engine's day has not come to repeat after 24 days.
import { expect, test } from 'vitest'
import { besideDay, beyond, cases } from './beside-engine.ts'

const CASES = cases({
  tree: [1, 2, 3, 4],
  'throttled loops': [1, 3, 4, 5],
  loops: [1, 2, 3],
  'two entries': [1, 2, 3, 4],
  'tank and return': [1, 2],
})
/** Some of them again, with mains in steps of five minutes. */
const LONG_STEPS = cases({ 'throttled loops': [1, 4], loops: [1, 2], 'two entries': [2], 'tank and return': [1] })
const LONG_STEP_MINUTES = 5
/** Milliseconds; some seconds where nobody else uses the machine. */
const PATIENCE = 240_000

test.each(CASES)(
  'day: %s, seed %i: no place is off by more than 3 % of the range, on average',
  (kind, seed) => {
    const differences = besideDay([kind, seed])
    expect(differences.every(({ range, cells }) => range > 0 && cells > 0)).toBe(true)
    expect(beyond(differences, { mostOnAverage: 0.03 })).toEqual([])
  },
  PATIENCE,
)

test.each(LONG_STEPS)(
  'day, mains in steps of five minutes: %s, seed %i: no place is off by more than 7 % of the range, on average',
  (kind, seed) => {
    const differences = besideDay([kind, seed], { mainMinutes: LONG_STEP_MINUTES })
    expect(differences.every(({ range, cells }) => range > 0 && cells > 0)).toBe(true)
    expect(beyond(differences, { mostOnAverage: 0.07 })).toEqual([])
  },
  PATIENCE,
)
