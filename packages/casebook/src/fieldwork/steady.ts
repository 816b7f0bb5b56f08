import { FIELDWORK, thresholdFor } from './figures.ts'
import type { TemperatureCurve } from './kinds.ts'

type Points = TemperatureCurve['points']

/**
 * The stretch at the end of a curve over which the temperature no longer moves (seconds and °C), undefined while it still does.
 * A probe that is read too early tells of the pipe, not of the system.
 *
 * It reaches back from the last reading as far as lowest and highest stay within `FIELDWORK.steadyWithinC` of each other, and counts when
 * it spans `steadyForSeconds` with at least `steadyPoints` readings. Its temperature is the last reading, a figure the probe showed.
 */
export function steadyStretch(points: Points): NonNullable<TemperatureCurve['steady']> | undefined {
  const last = points.at(-1)
  if (last === undefined) return undefined
  let lowest = last.temperatureC
  let highest = last.temperatureC
  let from = points.length - 1
  while (from > 0) {
    const before = points[from - 1]?.temperatureC ?? Number.POSITIVE_INFINITY
    lowest = Math.min(lowest, before)
    highest = Math.max(highest, before)
    if (highest - lowest > FIELDWORK.steadyWithinC + ROUNDING_C) break
    from -= 1
  }
  const fromSeconds = points[from]?.seconds ?? last.seconds
  const long = last.seconds - fromSeconds >= FIELDWORK.steadyForSeconds
  if (!long || points.length - from < FIELDWORK.steadyPoints) return undefined
  return { fromSeconds, toSeconds: last.seconds, temperatureC: last.temperatureC }
}

/** Readings are decimal, their differences binary. */
const ROUNDING_C = 1e-9

export type ThresholdVerdict =
  /** reached, at the latest by the reading at `seconds` */
  | { readonly kind: 'met' | 'late'; readonly seconds: number }
  /** every reading up to `seconds` fell short, and the time allowed is over */
  | { readonly kind: 'not reached'; readonly seconds: number }
  /** the curve ends before the time allowed is over */
  | { readonly kind: 'open'; readonly seconds: number }

/** Whether and when a curve reached what hot or cold water is held against. Nothing is read in between two readings. */
export function timeToThreshold(
  points: Points,
  quantity: 'hot-temperature' | 'cold-temperature',
): ThresholdVerdict | undefined {
  const last = points.at(-1)
  if (last === undefined) return undefined
  const { direction, temperatureC, withinSeconds } = thresholdFor(quantity)
  const reached = points.find((point) =>
    direction === 'below' ? point.temperatureC < temperatureC : point.temperatureC >= temperatureC,
  )
  if (reached !== undefined)
    return { kind: reached.seconds <= withinSeconds ? 'met' : 'late', seconds: reached.seconds }
  return { kind: last.seconds >= withinSeconds ? 'not reached' : 'open', seconds: last.seconds }
}
