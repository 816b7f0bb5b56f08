import { GAP_INTERVALS, type TracePoint } from '@rillmark/casebook/custody/logger-trace.ts'

export interface TraceScale {
  readonly y: (celsius: number) => number
  readonly ticksC: readonly number[]
  /** points of each unbroken stretch, as an SVG polyline takes them */
  readonly lines: readonly string[]
  readonly band: { readonly top: number; readonly height: number } | undefined
  readonly coldestC: number
  readonly warmestC: number
}

/** Enough for the eye: of more readings the coldest and warmest of each stretch are drawn. */
const MOST_DRAWN = 600

/** Where each reading of a trace stands in a chart. */
export function traceScale(
  points: readonly TracePoint[],
  on: {
    usualSeconds: number | undefined
    range: { lowestC: number; highestC: number } | undefined
    left: number
    right: number
    height: number
  },
): TraceScale | undefined {
  const [first, last] = [points[0], points.at(-1)]
  if (first === undefined || last === undefined) return undefined
  const temperatures = points.map(({ temperatureC }) => temperatureC)
  const [coldestC, warmestC] = [least(temperatures), -least(temperatures.map((each) => -each))]
  const low = Math.floor(Math.min(coldestC, on.range?.lowestC ?? coldestC)) - 1
  const high = Math.ceil(Math.max(warmestC, on.range?.highestC ?? warmestC)) + 1
  const y = (celsius: number): number => ((high - celsius) / (high - low)) * on.height
  const spanMs = Math.max(1, last.atMs - first.atMs)
  const x = (atMs: number): number => on.left + ((atMs - first.atMs) / spanMs) * (on.right - on.left)
  const gapMs = (on.usualSeconds ?? Number.POSITIVE_INFINITY) * GAP_INTERVALS * 1000
  const lines = stretches(points, gapMs).map((stretch) =>
    drawable(thinned(stretch))
      .map(({ atMs, temperatureC }) => `${x(atMs).toFixed(1)},${y(temperatureC).toFixed(1)}`)
      .join(' '),
  )
  return { y, ticksC: ticksOf(low, high), lines, band: bandOf(on.range, y), coldestC, warmestC }
}

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)

function stretches(points: readonly TracePoint[], gapMs: number): TracePoint[][] {
  const found: TracePoint[][] = []
  for (const point of points) {
    const before = found.at(-1)?.at(-1)
    if (before === undefined || point.atMs - before.atMs > gapMs) found.push([point])
    else found.at(-1)?.push(point)
  }
  return found
}

function thinned(points: readonly TracePoint[]): TracePoint[] {
  const size = Math.ceil(points.length / (MOST_DRAWN / 2))
  if (size <= 1) return [...points]
  return Array.from({ length: Math.ceil(points.length / size) }, (_, index) => {
    const part = points.slice(index * size, (index + 1) * size).sort((a, b) => a.temperatureC - b.temperatureC)
    return [part[0], part.at(-1)].flatMap((point) => point ?? []).sort((a, b) => a.atMs - b.atMs)
  }).flat()
}

/** A reading alone between two gaps is a dot, which a line of no length makes. */
const drawable = (points: readonly TracePoint[]): readonly TracePoint[] =>
  points.length === 1 ? [...points, ...points] : points

function ticksOf(low: number, high: number): number[] {
  const step = [1, 2, 5, 10, 20].find((each) => (high - low) / each <= 5) ?? 50
  const from = Math.ceil(low / step) * step
  return Array.from({ length: Math.floor((high - from) / step) + 1 }, (_, index) => from + index * step).toReversed()
}

function bandOf(
  range: { lowestC: number; highestC: number } | undefined,
  y: (celsius: number) => number,
): TraceScale['band'] {
  return range === undefined ? undefined : { top: y(range.highestC), height: y(range.lowestC) - y(range.highestC) }
}
