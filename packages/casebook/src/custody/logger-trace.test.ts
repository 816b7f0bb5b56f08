import { describe, expect, test } from 'vitest'
import { SERIES_LIMITS } from './kinds.ts'
import { Bench, LABORATORY } from './custody.fixture.ts'
import { custodyView } from './custody-view.ts'
import { coversWindow, loggerTraces, outsideTime } from './logger-trace.ts'

const START = '2026-03-02T08:00:00.000Z'
const START_MS = Date.parse(START)
const ALWAYS = { fromMs: Number.NEGATIVE_INFINITY, toMs: Number.POSITIVE_INFINITY }
const RANGE = { lowestC: 2, highestC: 8 }

const trace = (...points: [minutes: number, temperatureC: number][]) => {
  const at = points.map(([minutes, temperatureC]) => ({ atMs: START_MS + minutes * 60_000, temperatureC }))
  return { points: at, usualSeconds: 600 }
}

// Reckoned by hand: straight lines between readings, limits inside.
const CASES: [name: string, points: [number, number][], above: number, below: number, known: number][] = [
  [
    'always inside',
    [
      [0, 5],
      [10, 6],
      [20, 4],
    ],
    0,
    0,
    20,
  ],
  [
    'at the limits',
    [
      [0, 8],
      [10, 8],
      [20, 2],
      [30, 2],
    ],
    0,
    0,
    30,
  ],
  [
    'above throughout',
    [
      [0, 9],
      [10, 12],
    ],
    10,
    0,
    10,
  ],
  [
    'crosses up at half',
    [
      [0, 6],
      [10, 10],
    ],
    5,
    0,
    10,
  ],
  [
    'up a quarter and down',
    [
      [0, 7],
      [10, 11],
      [20, 7],
    ],
    15,
    0,
    20,
  ],
  [
    'below',
    [
      [0, 4],
      [10, 0],
      [20, 4],
    ],
    0,
    10,
    20,
  ],
  [
    'from too cold to too warm in one step',
    [
      [0, 0],
      [10, 10],
    ],
    2,
    2,
    10,
  ],
  ['a single reading', [[0, 20]], 0, 0, 0],
]

describe('[CUS18] minutes outside the range', () => {
  test.each(CASES)('%s', (_, points, above, below, known) => {
    const outside = outsideTime(trace(...points), { range: RANGE, window: ALWAYS })
    expect(outside.minutesAbove).toBeCloseTo(above, 9)
    expect(outside.minutesBelow).toBeCloseTo(below, 9)
    expect(outside.minutesKnown).toBeCloseTo(known, 9)
  })

  test('nothing is supposed across a gap, which is told', () => {
    const { gaps, ...outside } = outsideTime(trace([0, 9], [10, 9], [40, 9], [50, 5]), { range: RANGE, window: ALWAYS })
    expect(gaps).toEqual([{ fromMs: START_MS + 600_000, toMs: START_MS + 2_400_000 }])
    expect(outside).toMatchObject({ minutesAbove: 12.5, minutesKnown: 20 })
  })

  test('only the time the samples were in it counts', () => {
    const window = { fromMs: START_MS + 5 * 60_000, toMs: START_MS + 15 * 60_000 }
    const outside = outsideTime(trace([0, 20], [10, 10], [20, 0]), { range: RANGE, window })
    expect(outside).toMatchObject({ minutesAbove: 7, minutesBelow: 0, minutesKnown: 10 })
  })

  test('splitting a line at any reading changes nothing', () => {
    const whole = outsideTime(trace([0, 0], [10, 10]), { range: RANGE, window: ALWAYS })
    const halves = outsideTime(trace([0, 0], [3, 3], [10, 10]), { range: RANGE, window: ALWAYS })
    expect(halves.minutesAbove).toBeCloseTo(whole.minutesAbove, 9)
    expect(halves.minutesBelow).toBeCloseTo(whole.minutesBelow, 9)
  })
})

const FILE = { name: 'logger.csv', sha256: 'cd'.repeat(32) }

describe('[CUS17] the series of a logger', () => {
  const boxed = (): Bench => {
    const bench = new Bench()
    bench.collect('L1')
    bench.box('Box 1', 'L1') // packed 08:03
    return bench
  }
  const series = { startedAt: '2026-03-02T07:59:00.000Z', seconds: [0, 120, 240], temperatureC: [15, 9, 5] }

  test('is one entry or pieces of one file, put together; a missing piece is told', () => {
    const bench = boxed()
    for (const [number, seconds] of [
      [1, [0, 60]],
      [3, [240, 300]],
    ] as const)
      bench.write('temperature.logged', {
        consignment: 'Box 1',
        series: {
          logger: 'T-17',
          file: FILE,
          startedAt: '2026-03-02T07:50:00.000Z',
          seconds: [...seconds],
          temperatureC: [5, 6],
          piece: { number, of: 3 },
        },
      })
    const [first] = [...bench.state.custody.consignments.values()]
    const traces = first === undefined ? [] : loggerTraces(first)
    expect(traces).toMatchObject([{ logger: 'T-17', fileName: 'logger.csv', missingPieces: [2], usualSeconds: 60 }])
    expect(traces[0]?.points).toHaveLength(4)
  })

  test('runs forward, is in step with itself, has come, and is bounded', () => {
    const bench = boxed()
    const paths = (change: object): string[] =>
      bench.pathsOf('temperature.logged', { consignment: 'Box 1', series: { ...series, ...change } })
    expect(paths({})).toEqual([])
    expect(paths({ temperatureC: [1, 2] })).toEqual(['body.series.temperatureC'])
    expect(paths({ seconds: [0, 120, 120] })).toEqual(['body.series.seconds.2'])
    expect(paths({ startedAt: '2026-03-05T07:59:00.000Z' })).toEqual(['body.series.startedAt'])
    expect(paths({ piece: { number: 3, of: 2 } })).toEqual(['body.series.piece.number'])
    const many = Array.from({ length: SERIES_LIMITS.readings + 1 }, (_, index) => index)
    expect(paths({ seconds: many, temperatureC: many.map(() => 5) })).toEqual([
      'body.series.seconds',
      'body.series.temperatureC',
    ])
    expect(bench.pathsOf('temperature.logged', { consignment: 'Box 1' })).toEqual(['body.temperatureC'])
    expect(bench.pathsOf('temperature.logged', { consignment: 'Box 1', temperatureC: 5, series })).toEqual([
      'body.temperatureC',
    ])
  })

  test('[CUS11] [CUS18] counts for the warmest and coldest while samples were in the box', () => {
    const bench = boxed()
    bench.write('temperature.logged', {
      consignment: 'Box 1',
      series: { startedAt: '2026-03-02T07:58:00.000Z', seconds: [0, 310, 330, 355], temperatureC: [15, 5, 4, 7] }, // from 08:03:10 on inside
    })
    const [box] = custodyView(bench.state, START_MS).consignments
    expect(box?.temperature).toMatchObject({
      judgement: 'within, as far as measured',
      warmest: { temperatureC: 7 },
      coldest: { temperatureC: 4 },
    })
    expect(box?.chain.at(-1)).toMatchObject({ what: 'logger read, 4 readings', temperatureRangeC: [4, 15] })
    bench.write('consignment.received', {
      consignment: 'Box 1',
      laboratory: 'Q',
      receivedBy: LABORATORY,
      sealIntact: true,
      at: '2026-03-02T08:03:40.000Z',
      samples: [{ label: 'L1', condition: 'accepted' }],
    })
    expect(custodyView(bench.state, START_MS).consignments[0]?.temperature.warmest?.temperatureC).toBe(5)
  })
})

// a transport of five hours, a logger that reads every ten minutes
test.each([
  { name: 'all of it', from: -30, to: 310, without: [], missing: [], want: true },
  {
    name: 'from just after its beginning to just before its end',
    from: 10,
    to: 290,
    without: [],
    missing: [],
    want: true,
  },
  { name: 'ten of its three hundred minutes', from: 0, to: 10, without: [], missing: [], want: false },
  { name: 'only its first half', from: 0, to: 150, without: [], missing: [], want: false },
  { name: 'it with a gap', from: 0, to: 300, without: [100, 110], missing: [], want: false },
  { name: 'it with a gap before it began', from: -60, to: 300, without: [-40, -30], missing: [], want: true },
  { name: 'it but for a piece of its file', from: 0, to: 300, without: [], missing: [2], want: false },
])('[CUS11] a logger that kept $name: whole $want', ({ from, to, without, missing, want }) => {
  const minutes = Array.from({ length: (to - from) / 10 + 1 }, (_, index) => from + index * 10)
  const kept = minutes.filter((minute) => !without.some((gone) => gone === minute))
  const { points, usualSeconds } = trace(...kept.map((minute): [number, number] => [minute, 5]))
  const whole = { points, usualSeconds, logger: undefined, fileName: undefined, offset: '+00:00', entries: [] }
  const window = { fromMs: START_MS, toMs: START_MS + 300 * 60_000 }
  expect(coversWindow({ ...whole, missingPieces: missing }, window)).toBe(want)
  expect(coversWindow({ ...whole, missingPieces: missing }, ALWAYS)).toBe(false)
})
