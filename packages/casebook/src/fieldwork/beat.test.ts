import { expect, test } from 'vitest'
import { nextBeat } from './beat.ts'

const at = (...seconds: number[]) => seconds.map((each) => ({ seconds: each, temperatureC: 40 }))

// name | readings at | now | every | beat | its time. Worked out by hand on a line of time.
test.each([
  { name: 'the first reading is asked for as the tap opens', read: at(), now: 0, every: 10, number: 0, atSeconds: 0 },
  { name: 'one read at once waits for the next', read: at(1), now: 2, every: 10, number: 1, atSeconds: 10 },
  {
    name: 'an early one answers the beat it is nearest to',
    read: at(0, 8),
    now: 9,
    every: 10,
    number: 2,
    atSeconds: 20,
  },
  { name: 'a late one puts off nothing', read: at(0, 13), now: 14, every: 10, number: 2, atSeconds: 20 },
  { name: 'unanswered, the beat stays due', read: at(0), now: 14, every: 10, number: 1, atSeconds: 10 },
  { name: 'passed over when the next has come', read: at(0), now: 31, every: 10, number: 3, atSeconds: 30 },
  {
    name: 'after an hour away the beat is the present one',
    read: at(0, 5),
    now: 3603,
    every: 5,
    number: 720,
    atSeconds: 3600,
  },
  { name: 'every fifteen seconds', read: at(0, 15), now: 20, every: 15, number: 2, atSeconds: 30 },
])('[FLD24] $name', ({ read, now, every, number, atSeconds }) => {
  expect(nextBeat({ points: read, seconds: now, everySeconds: every })).toEqual({
    number,
    atSeconds,
    dueInSeconds: atSeconds - now,
  })
})

test('[FLD24] an interval of nothing is refused', () => {
  expect(() => nextBeat({ points: [], seconds: 0, everySeconds: 0 })).toThrow('above 0 s: got 0')
})
