import { describe, expect, it } from 'vitest'
import { steadyStretch, timeToThreshold } from './steady.ts'

const curve = (...temperatures: number[]) =>
  temperatures.map((temperatureC, index) => ({ seconds: index * 10, temperatureC }))

describe('[FLD19] steady: the last readings stay within half a degree for half a minute', () => {
  it.each([
    ['none', curve(), undefined],
    ['one', curve(44), undefined],
    ['rising', curve(26, 33, 40, 43, 44.2, 44.8), undefined],
    ['20 s only', curve(26, 44.5, 44.6, 44.6), undefined],
    ['30 s', curve(26, 44.5, 44.6, 44.6, 44.6), { fromSeconds: 10, toSeconds: 40, temperatureC: 44.6 }],
    ['exactly half a degree', curve(44.1, 44.3, 44.6, 44.6), { fromSeconds: 0, toSeconds: 30, temperatureC: 44.6 }],
    ['a little more', curve(44.0, 44.3, 44.6, 44.6), undefined],
    ['steady, then moving again', curve(44.6, 44.6, 44.6, 44.6, 46), undefined],
    ['falling', curve(24, 20, 17, 16.8, 16.7, 16.6), { fromSeconds: 20, toSeconds: 50, temperatureC: 16.6 }],
  ])('%s', (_, points, want) => expect(steadyStretch(points)).toEqual(want))

  it('two readings half a minute apart are too few', () =>
    expect(
      steadyStretch([
        { seconds: 0, temperatureC: 44.6 },
        { seconds: 30, temperatureC: 44.6 },
      ]),
    ).toBeUndefined())
})

describe('[FLD20] the time to a threshold is that of the first reading there, with nothing read in between', () => {
  it.each([
    ['hot in time', curve(20, 35, 45, 50, 55), 'hot-temperature', { kind: 'met', seconds: 30 }],
    ['hot too late', curve(20, 30, 35, 40, 44, 46, 49, 50), 'hot-temperature', { kind: 'late', seconds: 70 }],
    ['hot never', curve(20, 30, 35, 40, 44, 44.6, 44.6), 'hot-temperature', { kind: 'not reached', seconds: 60 }],
    ['hot not yet', curve(20, 30, 35), 'hot-temperature', { kind: 'open', seconds: 20 }],
    ['cold at 20 is not below 20', curve(24, 20, 19.9), 'cold-temperature', { kind: 'met', seconds: 20 }],
    ['no curve', curve(), 'hot-temperature', undefined],
  ] as const)('%s', (_, points, quantity, want) => expect(timeToThreshold([...points], quantity)).toEqual(want))
})
