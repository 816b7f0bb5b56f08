import { happenedAt } from './happened-at.ts'
import type { LoggerSeries } from './kinds.ts'
import type { Consignment } from './state.ts'

export interface TracePoint {
  readonly atMs: number
  readonly temperatureC: number
}

/** A stretch of time a logger should have kept and did not. */
export interface TraceGap {
  readonly fromMs: number
  readonly toMs: number
}

/** What one logger kept of a consignment, its pieces put together. */
export interface LoggerTrace {
  readonly logger: string | undefined
  readonly fileName: string | undefined
  readonly offset: string
  /** every reading kept, in order of time */
  readonly points: readonly TracePoint[]
  /** the middle interval between readings; undefined for a single one */
  readonly usualSeconds: number | undefined
  /** entries that carry it */
  readonly entries: readonly string[]
  /** pieces of it that are not in the record */
  readonly missingPieces: readonly number[]
}

/** An interval longer than this many usual ones is a gap: from the first missed reading on. Our own choice. */
export const GAP_INTERVALS = 1.5

type Logged = Extract<Consignment['events'][number], { kind: 'temperature.logged' }>
type SeriesEntry = { readonly entry: Logged; readonly series: LoggerSeries }

/** The traces of every logger of a consignment, pieces of one file joined, readings said twice counted once. */
export function loggerTraces(box: Consignment): LoggerTrace[] {
  const groups = new Map<string, SeriesEntry[]>()
  for (const entry of box.events) {
    if (entry.kind !== 'temperature.logged' || entry.body.series === undefined) continue
    const { series } = entry.body
    const key = series.file?.sha256 ?? `${series.logger ?? ''} ${entry.id}`
    groups.set(key, [...(groups.get(key) ?? []), { entry, series }])
  }
  return [...groups.values()].flatMap(traceOf)
}

function traceOf(pieces: readonly SeriesEntry[]): LoggerTrace[] {
  const [first] = pieces
  if (first === undefined) return []
  const at = new Map<number, number>()
  for (const { series } of pieces)
    for (const [index, seconds] of series.seconds.entries()) {
      const temperatureC = series.temperatureC[index]
      const atMs = Date.parse(series.startedAt) + seconds * 1000
      if (temperatureC !== undefined && !at.has(atMs)) at.set(atMs, temperatureC)
    }
  const points = [...at].map(([atMs, temperatureC]) => ({ atMs, temperatureC })).sort((a, b) => a.atMs - b.atMs)
  const here = new Set(pieces.map(({ series }) => series.piece?.number ?? 1))
  const of = first.series.piece?.of ?? 1
  return [
    {
      logger: first.series.logger,
      fileName: first.series.file?.name,
      offset: first.entry.offset,
      points,
      usualSeconds: usualSecondsOf(points),
      entries: pieces.map(({ entry }) => entry.id),
      missingPieces: Array.from({ length: of }, (_, index) => index + 1).filter((number) => !here.has(number)),
    },
  ]
}

function usualSecondsOf(points: readonly TracePoint[]): number | undefined {
  const intervals = points
    .slice(1)
    .map(({ atMs }, index) => (atMs - (points[index]?.atMs ?? atMs)) / 1000)
    .sort((a, b) => a - b)
  return intervals[Math.floor((intervals.length - 1) / 2)]
}

/** The time in which a consignment's temperature matters: from its first sample in it to the laboratory's receipt. */
export interface TransportWindow {
  readonly fromMs: number
  readonly toMs: number
}

/** From the first sample packed to the receipt; open where either has not happened. */
export function transportWindow(box: Consignment): TransportWindow {
  const packed = box.events.find(({ kind }) => kind === 'sample.packed')
  const { received } = box
  return {
    fromMs: packed === undefined ? Number.NEGATIVE_INFINITY : Date.parse(packed.instant),
    toMs: received === undefined ? Number.POSITIVE_INFINITY : Date.parse(happenedAt(received)),
  }
}

/** How long a trace stayed above and below a range, and where it says nothing. */
export interface OutsideTime {
  readonly minutesAbove: number
  readonly minutesBelow: number
  /** time that is covered by readings, gaps left out */
  readonly minutesKnown: number
  readonly gaps: readonly TraceGap[]
}

/**
 * Minutes a logger's temperature was outside a range within a window. Between two readings in step it is taken to run in a straight line;
 * across a gap nothing is supposed.
 *
 * @param range.lowestC, range.highestC °C; the limits themselves are inside
 */
export function outsideTime(
  { points, usualSeconds }: Pick<LoggerTrace, 'points' | 'usualSeconds'>,
  { range, window }: { range: { lowestC: number; highestC: number }; window: TransportWindow },
): OutsideTime {
  let [above, below, known] = [0, 0, 0]
  const gaps: TraceGap[] = []
  for (const [index, to] of points.entries()) {
    const from = points[index - 1]
    if (from === undefined) continue
    const part = within(from, { to, window })
    if (part === undefined) continue
    if (usualSeconds !== undefined && (to.atMs - from.atMs) / 1000 > usualSeconds * GAP_INTERVALS) {
      gaps.push({ fromMs: part.from.atMs, toMs: part.to.atMs })
      continue
    }
    const minutes = (part.to.atMs - part.from.atMs) / MINUTE_MS
    known += minutes
    above += minutes * shareAbove(part, range.highestC)
    below += minutes * shareAbove(mirrored(part), -range.lowestC)
  }
  return { minutesAbove: above, minutesBelow: below, minutesKnown: known, gaps }
}

/** Whether a trace kept a whole window, from a reading about its beginning to one about its end, with no gap and no piece missing. */
export function coversWindow(
  { points, usualSeconds, missingPieces }: LoggerTrace,
  { fromMs, toMs }: TransportWindow,
): boolean {
  const [first, last] = [points[0], points.at(-1)]
  if (first === undefined || last === undefined || usualSeconds === undefined || missingPieces.length > 0) return false
  const stepMs = usualSeconds * GAP_INTERVALS * 1000
  if (first.atMs > fromMs + stepMs || last.atMs < toMs - stepMs) return false
  return points.every(({ atMs }, index) => {
    const before = points[index - 1]
    return before === undefined || atMs <= fromMs || before.atMs >= toMs || atMs - before.atMs <= stepMs
  })
}

const MINUTE_MS = 60_000

interface Part {
  readonly from: TracePoint
  readonly to: TracePoint
}

/** The part of a straight line between two readings that lies in the window. */
function within(from: TracePoint, { to, window }: { to: TracePoint; window: TransportWindow }): Part | undefined {
  const [fromMs, toMs] = [Math.max(from.atMs, window.fromMs), Math.min(to.atMs, window.toMs)]
  if (fromMs >= toMs) return undefined
  const at = (atMs: number): TracePoint => ({
    atMs,
    temperatureC:
      from.temperatureC + ((to.temperatureC - from.temperatureC) * (atMs - from.atMs)) / (to.atMs - from.atMs),
  })
  return { from: at(fromMs), to: at(toMs) }
}

const mirrored = ({ from, to }: Part): Part => ({
  from: { ...from, temperatureC: -from.temperatureC },
  to: { ...to, temperatureC: -to.temperatureC },
})

/** The share of a straight line that lies above a limit. */
function shareAbove({ from, to }: Part, limitC: number): number {
  const [a, b] = [from.temperatureC - limitC, to.temperatureC - limitC]
  if (a <= 0 && b <= 0) return 0
  if (a >= 0 && b >= 0) return a === 0 && b === 0 ? 0 : 1
  return Math.max(a, b) / Math.abs(a - b)
}
