import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import { risingRoot } from '../distributions/rising-root.ts'
import { type Height, highestBetween } from '../likelihood/golden-section.ts'
import { type LimitSought, profileLimit } from '../likelihood/profile-limit.ts'
import type { OpenInterval } from '../tables/open-interval.ts'
import { type LogReadings, lognormalLikelihood, type Precision } from './lognormal-likelihood.ts'
import type { Span } from './reading.ts'

export interface LognormalFit {
  meanLog: number
  sdLog: number
  logLikelihood: number
}

/**
 * Why readings have no most likely lognormal distribution, or nothing where they have one.
 *
 * @param spans readings
 * @source helsel-2012
 * @example
 * whyNoFit([{ low: 0, high: 10 }]) // => "every reading could be the same value, so the spread has no estimate"
 */
export function whyNoFit(spans: readonly Span[]): string | undefined {
  const lowest = spans.reduce((most, { low }) => Math.max(most, low), 0)
  const highest = spans.reduce((least, { high }) => Math.min(least, high), Number.POSITIVE_INFINITY)
  if (lowest <= highest * SAME) return 'every reading could be the same value, so the spread has no estimate'
  if (!spans.some(({ low, high }) => low > 0 && Number.isFinite(high))) return 'no reading is closed on both sides'
  return undefined
}

/** Readings this close together are one value, written twice. */
const SAME = 1 + 1e-9

const ENOUGH_STEPS = 200
const ENOUGH_HALVINGS = 60
const NO_GAIN = 1e-22

/**
 * The most likely lognormal distribution, by Newton's step halved until it climbs. In 1/σ and μ/σ the likelihood has one top.
 *
 * @param readings as logarithms, of which `whyNoFit` says nothing
 * @param start mean and standard deviation of logarithms to start from
 * @source helsel-2012
 * @source burridge-1981
 */
export function fitLognormal(readings: LogReadings, start: { meanLog: number; sdLog: number }): LognormalFit {
  let at: Precision = { theta: 1 / start.sdLog, eta: start.meanLog / start.sdLog }
  let point = lognormalLikelihood(readings, at)
  for (let step = 0; step < ENOUGH_STEPS; step++) {
    const [t, e] = point.slope
    const [tt, te, ee] = point.curvature
    const determinant = tt * ee - te * te
    const [dt, de] = [(-ee * t + te * e) / determinant, (te * t - tt * e) / determinant]
    const gain = t * dt + e * de
    if (!(gain > NO_GAIN)) break
    let size = 1
    for (let halving = 0; halving < ENOUGH_HALVINGS; halving++, size /= 2) {
      const next = { theta: at.theta + size * dt, eta: at.eta + size * de }
      if (next.theta <= 0) continue
      const found = lognormalLikelihood(readings, next)
      if (!(found.logLikelihood >= point.logLikelihood - ROUNDING * Math.abs(point.logLikelihood))) continue
      at = next
      point = found
      break
    }
  }
  return { meanLog: at.eta / at.theta, sdLog: 1 / at.theta, logLikelihood: point.logLikelihood }
}

/** A step whose gain is below this share of the likelihood can't be seen in it. */
const ROUNDING = 1e-15

/** A figure of the distribution: given it and the other parameter (free), the mean and standard deviation of logarithms. */
export interface Profiled {
  estimate: number
  free: number
  /** Rough standard errors of both, to look around with. */
  errors: { estimate: number; free: number }
  at(figure: number, free: number): LogMoments
  /** How these change with the figure and with the other parameter. */
  by(figure: number, free: number): { figure: LogMoments; free: LogMoments }
}

interface LogMoments {
  meanLog: number
  sdLog: number
}

/**
 * Limits of a figure by its profile likelihood: where twice the fall, the other parameter at its best, reaches the chi-squared quantile.
 *
 * @param readings as logarithms
 * @param how the figure, the greatest log-likelihood, level
 * @source helsel-2012
 */
export function profileLimits(
  readings: LogReadings,
  { profiled, top, level }: { profiled: Profiled; top: number; level: number },
): OpenInterval {
  const wanted = twoSidedNormalQuantile(level) ** 2 / 2
  const quick = (side: 1 | -1) => profileLimit({ ...likelihoodOf(readings, profiled), j: 0, side, wanted })?.[0]
  const slow = (side: 1 | -1) => {
    let near = profiled.free
    const fall = (t: number) => {
      const figure = profiled.estimate + side * t * profiled.errors.estimate
      const best = highest((free) => likelihoodAt(readings, profiled.at(figure, free)), {
        near,
        step: profiled.errors.free,
      })
      near = best.at
      return top - best.value
    }
    const rising = (t: number) => (t <= 0 ? t - wanted : fall(t) - wanted)
    const t = risingRoot({ rising, start: 2, step: 1, agreement: 1e-10 })
    return t > TOO_FAR ? undefined : profiled.estimate + side * t * profiled.errors.estimate
  }
  return { lower: quick(-1) ?? slow(-1), upper: quick(1) ?? slow(1) }
}

/** The log-likelihood in a figure and the other parameter, and its top. */
function likelihoodOf(readings: LogReadings, { estimate, free, at, by }: Profiled): Pick<LimitSought, 'at' | 'top'> {
  const turned = (figure: number, other: number) => {
    const { meanLog, sdLog } = at(figure, other)
    const change = by(figure, other)
    const inPrecision = ({ meanLog: m, sdLog: s }: LogMoments): [number, number] => [
      -s / sdLog ** 2,
      m / sdLog - (meanLog * s) / sdLog ** 2,
    ]
    const point = lognormalLikelihood(readings, { theta: 1 / sdLog, eta: meanLog / sdLog })
    return { point, changes: [inPrecision(change.figure), inPrecision(change.free)] as const }
  }
  const pointAt = (coefficients: Float64Array) => {
    const { point, changes } = turned(coefficients[0] as number, coefficients[1] as number)
    const [t, e] = point.slope
    const found = Number.isNaN(point.logLikelihood) ? Number.NEGATIVE_INFINITY : point.logLikelihood
    return { coefficients, logLikelihood: found, score: Float64Array.from(changes, ([dt, de]) => t * dt + e * de) }
  }
  const { point, changes } = turned(estimate, free)
  const [tt, te, ee] = point.curvature
  const bend = ([at1, ae1]: [number, number], [at2, ae2]: [number, number]) =>
    -(tt * at1 * at2 + te * (at1 * ae2 + ae1 * at2) + ee * ae1 * ae2)
  const [figure, other] = changes
  const information = Float64Array.of(
    bend(figure, figure),
    bend(figure, other),
    bend(figure, other),
    bend(other, other),
  )
  return { at: pointAt, top: { ...pointAt(Float64Array.of(estimate, free)), information } }
}

/** So many standard errors away, a limit is none. */
const TOO_FAR = 600

function likelihoodAt(readings: LogReadings, { meanLog, sdLog }: { meanLog: number; sdLog: number }): number {
  const found = lognormalLikelihood(readings, { theta: 1 / sdLog, eta: meanLog / sdLog }).logLikelihood
  return Number.isNaN(found) ? Number.NEGATIVE_INFINITY : found
}

const CLOSE = 1e-8

/** The top of a function with one, in a bracket widened about where it is thought to be. */
function highest(f: (x: number) => number, { near, step }: { near: number; step: number }): Height {
  let [low, high] = [near - step, near + step]
  for (let wide = step, i = 0; i < 60 && f(low) > f(low + wide / 2); i++, wide *= 2) low -= wide
  for (let wide = step, i = 0; i < 60 && f(high) > f(high - wide / 2); i++, wide *= 2) high += wide
  return highestBetween(f, { from: low, to: high, agreement: CLOSE })
}
