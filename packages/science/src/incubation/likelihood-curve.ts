import { placeWhereItEnds } from '../distributions/halving.ts'
import { highestBetween } from '../likelihood/golden-section.ts'
import { logSum, type Stretch } from './log-chance.ts'

/** A relative likelihood below e^−this is nothing. */
const NOTHING = 32
/** Nobody looks further back than this for a source, days. */
export const FURTHEST_BACK_DAYS = 4000

export interface LikelihoodCurve {
  /** Where it is highest. */
  at: number
  /** ln of it there. */
  top: number
  /** Where it is above the cut of the level: one stretch, or several apart. */
  supported: Stretch[]
  /** ln of its integral. */
  logIntegral: number
  /** Share of its integral up to t, 0 to 1. */
  shareUpTo(t: number): number
  /** The t up to which a share lies. */
  quantile(share: number): number
  /** Where it is more than nothing. */
  stretches: Stretch[]
}

/**
 * A likelihood of one unknown time, explored: its top, where it is within a drop of the top, and its integral (a posterior with a flat
 * prior).
 *
 * The stretches are first narrowed to where the likelihood is more than e^−32 of the top, the top refined by golden section, the
 * integral by Simpson's rule with cells halved until it stands; crossings by halving.
 *
 * Special cases: stretches may be open to the past; they are looked at 4,000 days back at most.
 *
 * @param logLikelihood of t (days); −∞ where it is impossible
 * @param within where it may be finite, and how far below the top (ln) is still supported
 * @throws RangeError when it is nowhere finite
 * @source egan-2011
 */
export function likelihoodCurve(
  logLikelihood: (t: number) => number,
  { stretches, drop }: { stretches: readonly Stretch[]; drop: number },
): LikelihoodCurve {
  const narrowed = stretches.map((stretch) => narrow(logLikelihood, closed(logLikelihood, stretch)))
  const highest = narrowed.reduce((a, b) => (b.top > a.top ? b : a), { at: 0, top: Number.NEGATIVE_INFINITY })
  if (highest.top === Number.NEGATIVE_INFINITY)
    throw new RangeError('Cannot find the time of exposure because no time can explain every onset')
  const kept = narrowed.filter(({ top }) => top > highest.top - NOTHING)
  const pieces = kept.map((piece) => cellsOf((t) => Math.exp(logLikelihood(t) - highest.top), piece))
  const cells = pieces.flat()
  const supported = pieces.flatMap((piece) =>
    supportedOf(piece, { least: Math.exp(-drop), above: (t) => logLikelihood(t) - highest.top + drop }),
  )
  const sums = runningSums(cells)
  const total = sums.at(-1) ?? 0
  return {
    at: highest.at,
    top: highest.top,
    supported: supported.length === 0 ? [{ from: highest.at, to: highest.at }] : supported,
    logIntegral: highest.top + Math.log(total),
    shareUpTo: (t) => partUpTo({ cells, sums, t }) / total,
    quantile: (share) => placeOf({ cells, sums, wanted: share * total }),
    stretches: kept.map(({ from, to }) => ({ from, to })),
  }
}

type LogLikelihood = (t: number) => number

/** An end for a stretch open to the past. */
function closed(logLikelihood: LogLikelihood, { from, to }: Stretch): Stretch {
  if (from > to - FURTHEST_BACK_DAYS) return { from, to }
  let top = Number.NEGATIVE_INFINITY
  for (let back = 0.5; back < FURTHEST_BACK_DAYS; back *= 1.5) {
    const here = logLikelihood(to - back)
    top = Math.max(top, here)
    if (here < top - NOTHING) return { from: to - back, to }
  }
  return { from: Math.max(from, to - FURTHEST_BACK_DAYS), to }
}

const LOOKS = 64
const ROUNDS_OF_LOOKING = 24

interface Narrowed extends Stretch {
  at: number
  top: number
}

/** The part of a stretch where the likelihood is more than nothing, and its top. */
function narrow(logLikelihood: LogLikelihood, stretch: Stretch): Narrowed {
  let { from, to } = stretch
  for (let round = 0; ; round++) {
    // Denser towards the latest time, where a wide stretch has its top.
    const places = Array.from(
      { length: LOOKS + 1 },
      (_, i) => to - (to - from) * (1 - i / LOOKS) ** (round === 0 ? 3 : 1),
    )
    const values = places.map(logLikelihood)
    const best = values.reduce((top, value, i) => (value > (values[top] ?? 0) ? i : top), 0)
    const top = values[best] ?? Number.NEGATIVE_INFINITY
    const first = values.findIndex((value) => value > top - NOTHING)
    const last = values.findLastIndex((value) => value > top - NOTHING)
    const next = { from: places[Math.max(0, first - 1)] ?? from, to: places[Math.min(LOOKS, last + 1)] ?? to }
    const hasSettled = next.to - next.from > (to - from) / 2 || round === ROUNDS_OF_LOOKING
    if (top === Number.NEGATIVE_INFINITY || hasSettled) {
      const near = { from: places[Math.max(0, best - 1)] ?? from, to: places[Math.min(LOOKS, best + 1)] ?? to }
      return { ...next, ...highestIn(logLikelihood, near) }
    }
    ;({ from, to } = next)
  }
}

/** Nearer than this share of the days two likelihoods can't be told apart. */
const AGREEMENT_OF_TOP = 1e-10

/** An end counts too. */
function highestIn(logLikelihood: LogLikelihood, { from, to }: Stretch): { at: number; top: number } {
  const inside = highestBetween(logLikelihood, { from, to, agreement: AGREEMENT_OF_TOP })
  const places = [from, inside.at, to].map((at) => ({ at, top: logLikelihood(at) }))
  return places.reduce((best, each) => (each.top > best.top ? each : best))
}

/** A stretch with the likelihood at its ends and middle, relative to the top. */
interface Cell extends Stretch {
  values: readonly [number, number, number]
}

const FIRST_CELLS = 48
const FIRST_NEAR_TOP_DAYS = 0.02
const AGREEMENT = 1e-9
const DEEPEST = 22

function cellsOf(relative: (t: number) => number, { from, to, at }: Narrowed): Cell[] {
  const even = Array.from({ length: FIRST_CELLS + 1 }, (_, i) => from + ((to - from) * i) / FIRST_CELLS)
  const near = Array.from(
    { length: FIRST_CELLS },
    (_, i) => FIRST_NEAR_TOP_DAYS * 1.5 ** Math.floor(i / 2) * (i % 2 === 0 ? 1 : -1),
  )
  const edges = [...even, at, ...near.map((off) => at + off)].filter((t) => t >= from && t <= to).sort((a, b) => a - b)
  const different = edges.filter((t, i) => i === 0 || t > (edges[i - 1] ?? t))
  const values = different.map(relative)
  const cells = different.slice(1).map((end, i): Cell => {
    const start = different[i] ?? end
    return { from: start, to: end, values: [values[i] ?? 0, relative((start + end) / 2), values[i + 1] ?? 0] }
  })
  const rough = cells.reduce((sum, cell) => sum + areaOf(cell), 0)
  return cells.flatMap((cell) => halved(relative, { cell, allowed: AGREEMENT * rough, depth: 0 }))
}

function halved(relative: (t: number) => number, work: { cell: Cell; allowed: number; depth: number }): Cell[] {
  const { cell, allowed, depth } = work
  const middle = (cell.from + cell.to) / 2
  const left: Cell = {
    from: cell.from,
    to: middle,
    values: [cell.values[0], relative((cell.from + middle) / 2), cell.values[1]],
  }
  const right: Cell = {
    from: middle,
    to: cell.to,
    values: [cell.values[1], relative((middle + cell.to) / 2), cell.values[2]],
  }
  const change = Math.abs(areaOf(left) + areaOf(right) - areaOf(cell))
  if (change <= allowed || depth === DEEPEST) return [left, right]
  return [left, right].flatMap((half) => halved(relative, { cell: half, allowed, depth: depth + 1 }))
}

/** Simpson's rule. */
function areaOf({ from, to, values: [a, middle, b] }: Cell): number {
  return ((to - from) / 6) * (a + 4 * middle + b)
}

/** Of the parabola through the cell, from its start to a share s of its width. */
function partOf({ from, to, values: [a, middle, b] }: Cell, s: number): number {
  const [slope, bend] = [-3 * a + 4 * middle - b, 2 * a - 4 * middle + 2 * b]
  return (to - from) * s * (a + s * (slope / 2 + (s * bend) / 3))
}

function runningSums(cells: readonly Cell[]): number[] {
  let sum = 0
  return cells.map((cell) => (sum += areaOf(cell)))
}

function partUpTo({ cells, sums, t }: { cells: readonly Cell[]; sums: readonly number[]; t: number }): number {
  const index = cells.findIndex(({ to }) => t < to)
  const cell = cells[index]
  if (cell === undefined) return sums.at(-1) ?? 0
  const before = sums[index - 1] ?? 0
  return t <= cell.from ? before : before + partOf(cell, (t - cell.from) / (cell.to - cell.from))
}

function placeOf({ cells, sums, wanted }: { cells: readonly Cell[]; sums: readonly number[]; wanted: number }): number {
  const index = sums.findIndex((sum) => sum >= wanted)
  const cell = cells[index] ?? cells.at(-1)
  if (cell === undefined) return 0
  const rest = wanted - (sums[index - 1] ?? 0)
  const s = crossing((share) => partOf(cell, share) - rest, { from: 0, to: 1 })
  return cell.from + s * (cell.to - cell.from)
}

/** Where a function changes its sign between two places. */
function crossing(f: (x: number) => number, between: Stretch): number {
  const isPositiveFirst = f(between.from) > 0
  return placeWhereItEnds((x) => f(x) > 0 === isPositiveFirst, between)
}

/** Where one piece is above a least value: crossings between neighbouring places, and the ends of what was looked at. */
function supportedOf(
  cells: readonly Cell[],
  { least, above }: { least: number; above: (t: number) => number },
): Stretch[] {
  const places = cells.flatMap(({ from, to, values }) =>
    [from, (from + to) / 2, to].map((t, index) => ({ t, isAbove: (values[index] ?? 0) > least })),
  )
  const found: Stretch[] = []
  for (const [index, { t, isAbove }] of places.entries()) {
    const before = places[index - 1]
    if (before !== undefined && before.isAbove === isAbove) {
      const last = found.at(-1)
      if (isAbove && last !== undefined) last.to = t
      continue
    }
    const edge = before === undefined ? t : crossing(above, { from: before.t, to: t })
    const last = found.at(-1)
    if (isAbove) found.push({ from: edge, to: t })
    else if (last !== undefined) last.to = edge
  }
  return found
}

/**
 * Several likelihoods of the same time, each as likely beforehand, as one: their mean.
 *
 * @param logLikelihoods of t, one a model
 * @source egan-2011
 */
export function meanLikelihood(logLikelihoods: readonly LogLikelihood[]): LogLikelihood {
  const share = Math.log(logLikelihoods.length)
  return (t) => logSum(logLikelihoods.map((one) => one(t))) - share
}
