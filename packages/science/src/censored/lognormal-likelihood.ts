import { logNormalCdf } from '../distributions/normal-tail.ts'
import type { Span } from './reading.ts'

/** Readings as logarithms: the values by their sums, the open ones each with how often it occurs. */
export interface LogReadings {
  values: number
  sum: number
  sumOfSquares: number
  spans: { low: number; high: number; count: number }[]
}

/** A lognormal distribution as precision θ = 1/σ and position η = μ/σ: in these the log-likelihood has one top. */
export interface Precision {
  theta: number
  eta: number
}

export interface LikelihoodPoint {
  logLikelihood: number
  /** In θ and η. */
  slope: [number, number]
  /** θθ, θη, ηη. */
  curvature: [number, number, number]
}

/**
 * Readings as logarithms.
 *
 * @param spans readings, values above 0
 * @source none: it computes nothing of the trade
 * @example
 * logReadings([{ low: 1, high: 1 }, { low: 0, high: 1 }]).values // => 1
 */
export function logReadings(spans: readonly Span[]): LogReadings {
  const exact = spans.filter(({ low, high }) => low === high).map(({ low }) => Math.log(low))
  const open = new Map<string, LogReadings['spans'][number]>()
  for (const { low, high } of spans) {
    if (low === high) continue
    const key = `${low} to ${high}`
    open.set(key, { low: Math.log(low), high: Math.log(high), count: (open.get(key)?.count ?? 0) + 1 })
  }
  return {
    values: exact.length,
    sum: exact.reduce((sum, y) => sum + y, 0),
    sumOfSquares: exact.reduce((sum, y) => sum + y * y, 0),
    spans: [...open.values()],
  }
}

const HALF_LOG_TWO_PI = Math.log(2 * Math.PI) / 2

/**
 * The log-likelihood of a lognormal distribution, in the unit of the readings, with slope and curvature.
 *
 * values: ln θ − ½(θy − η)² − y − ½ ln 2π; open readings: ln(Φ(θb − η) − Φ(θa − η)).
 *
 * @param readings as logarithms
 * @param at θ above 0, and η
 * @source helsel-2012
 */
export function lognormalLikelihood(readings: LogReadings, { theta, eta }: Precision): LikelihoodPoint {
  const { values: n, sum, sumOfSquares } = readings
  const squares = theta * theta * sumOfSquares - 2 * theta * eta * sum + n * eta * eta
  let logLikelihood = n * (Math.log(theta) - HALF_LOG_TWO_PI) - squares / 2 - sum
  let [t, e] = [n / theta - theta * sumOfSquares + eta * sum, theta * sum - n * eta]
  let [tt, te, ee] = [-n / theta ** 2 - sumOfSquares, sum, -n]
  for (const { low: a, high: b, count } of readings.spans) {
    const [za, zb] = [theta * a - eta, theta * b - eta]
    const log = logBetween(za, zb)
    const [ga, gb] = [densityOver(za, log), densityOver(zb, log)]
    /** Open ends have no density; their logarithm must not turn 0 into nothing. */
    const [aga, bgb] = [ga === 0 ? 0 : a * ga, gb === 0 ? 0 : b * gb]
    const [pull, push] = [bgb - aga, gb - ga]
    const [zaga, zbgb] = [ga === 0 ? 0 : za * ga, gb === 0 ? 0 : zb * gb]
    logLikelihood += count * log
    t += count * pull
    e -= count * push
    tt += count * ((ga === 0 ? 0 : a * a * zaga) - (gb === 0 ? 0 : b * b * zbgb) - pull * pull)
    te += count * ((gb === 0 ? 0 : b * zbgb) - (ga === 0 ? 0 : a * zaga) + pull * push)
    ee += count * (zaga - zbgb - push * push)
  }
  return { logLikelihood, slope: [t, e], curvature: [tt, te, ee] }
}

/** ln(Φ(zb) − Φ(za)), reckoned in the lower tail whichever side it lies. */
function logBetween(za: number, zb: number): number {
  const [far, near] = za > 0 ? [-zb, -za] : [za, zb]
  const logNear = near === Number.POSITIVE_INFINITY ? 0 : logNormalCdf(near)
  if (far === Number.NEGATIVE_INFINITY) return logNear
  return logNear + Math.log(-Math.expm1(logNormalCdf(far) - logNear))
}

function densityOver(z: number, log: number): number {
  return Number.isFinite(z) ? Math.exp((-z * z) / 2 - HALF_LOG_TWO_PI - log) : 0
}
