import { firstWhere } from '../distributions/first-where.ts'
import type { Span } from './reading.ts'
import { type Groups, likeliestShares } from './turnbull-shares.ts'

/** A share of the readings at a value (low = high), or somewhere from `low` to below `high`. */
export interface Portion {
  low: number
  high: number
  /** 0 to 1. */
  mass: number
}

/**
 * The distribution of readings known as values, below or above a limit or between two, without a shape assumed: Turnbull's most likely one.
 * Its mass lies on values and on the innermost spans between limits; where in such a span, no reading tells.
 *
 * Ties: "below" and the upper end of "between" leave the limit itself out, as "above" does; the lower end of "between" holds it. So bands
 * that touch share nothing.
 *
 * Special cases: with values and "below" alone it is Kaplan and Meier's.
 *
 * @param spans readings
 * @throws RangeError when the shares have not settled within the work allowed
 * @source turnbull-1976
 * @example
 * turnbull([{ low: 2, high: 2 }, { low: 0, high: 3 }, { low: 4, high: 4 }]).map(({ low }) => low) // => [2, 4]
 */
export function turnbull(spans: readonly Span[]): Portion[] {
  const ends = spans.map(endsOf)
  const cells = innermost(ends)
  const groups = groupsOf(ends, cells)
  const shares = likeliestShares(groups, cells.length)
  return cells.flatMap(({ low, high }, k) => {
    const mass = shares[k] ?? 0
    return mass > NO_SHARE ? [{ low: low.at, high: high.at, mass }] : []
  })
}

/** A share this small is none. */
const NO_SHARE = 1e-12

/** An end of a reading, and whether it lies just before, at or just after that number. */
interface End {
  at: number
  side: -1 | 0 | 1
}

interface Ends {
  low: End
  high: End
}

function endsOf({ low, high }: Span): Ends {
  if (low === high) return { low: { at: low, side: 0 }, high: { at: high, side: 0 } }
  return { low: { at: low, side: high === Number.POSITIVE_INFINITY ? 1 : 0 }, high: { at: high, side: -1 } }
}

function order(one: End, other: End): number {
  return one.at === other.at ? one.side - other.side : one.at - other.at
}

/** The spans from a lower end to the upper end that follows it next. */
function innermost(ends: readonly Ends[]): Ends[] {
  const all = ends
    .flatMap(({ low, high }) => [
      { end: low, upper: 0 },
      { end: high, upper: 1 },
    ])
    .toSorted((a, b) => order(a.end, b.end) || a.upper - b.upper)
  return all.flatMap(({ end, upper }, i) => {
    const next = all[i + 1]
    return upper === 0 && next?.upper === 1 ? [{ low: end, high: next.end }] : []
  })
}

function groupsOf(ends: readonly Ends[], cells: readonly Ends[]): Groups {
  const counts = new Map<number, number>()
  const firstCell = (holds: (cell: Ends) => boolean) =>
    firstWhere({ least: 0, most: cells.length }, (k) => holds(cells[k] as Ends))
  for (const { low, high } of ends) {
    const first = firstCell((cell) => order(cell.low, low) >= 0)
    const last = firstCell((cell) => order(cell.high, high) > 0) - 1
    const key = first * cells.length + last
    counts.set(key, (counts.get(key) ?? 0) + 1)
  }
  const keys = [...counts.keys()]
  return {
    first: Int32Array.from(keys, (key) => Math.floor(key / cells.length)),
    last: Int32Array.from(keys, (key) => key % cells.length),
    count: Float64Array.from(counts.values()),
    readings: ends.length,
  }
}
