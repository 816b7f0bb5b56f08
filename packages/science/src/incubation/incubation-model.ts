import models from '@rillmark/reference/incubation/models.json' with { type: 'json' }
import { logGamma } from '../distributions/gamma.ts'
import { logNormalCdf } from '../distributions/normal-tail.ts'

/** How long after exposure people fall ill, in days: a published distribution, one of one's own, or cases counted by day. */
export type IncubationModel =
  | { family: 'published'; id: string }
  | { family: 'gamma'; shape: number; scaleDays: number }
  | { family: 'lognormal'; medianDays: number; sdLog: number }
  | { family: 'weibull'; shape: number; scaleDays: number }
  | { family: 'burr'; shape: number; tailShape: number; scaleDays: number }
  | { family: 'by-day'; cases: number[] }

/** A distribution of incubation periods, all in logarithms so that no tail vanishes. Days above 0 only. */
export interface IncubationDistribution {
  title: string
  /** ln of the share at or below. */
  logLower(days: number): number
  /** ln of the share above. */
  logUpper(days: number): number
  logDensity(days: number): number
  /** Where the density isn't smooth. */
  knots: readonly number[]
  shortestDays: number
  /** Infinite where nothing bounds it. */
  longestDays: number
}

type Shape = Omit<IncubationDistribution, 'title' | 'knots' | 'shortestDays' | 'longestDays'>

/**
 * The distribution a model stands for, as functions of days since exposure. The one copy all calculations on incubation use.
 *
 * gamma, Weibull and lognormal as usual; Burr: share above x = (1 + (x/scale)^shape)^−tailShape; by-day: the counts of day 0–1, 1–2, …,
 * spread evenly within their day.
 *
 * @param model published (id of `reference/incubation/models.json`), or a family with its parameters, all above 0
 * @throws RangeError when a published model is unknown, or no case is counted
 * @source incubation-gamma-a
 * @source jamieson-2024
 * @example
 * incubationDistribution({ family: 'weibull', shape: 1, scaleDays: 5 }).logUpper(10) // => -2
 */
export function incubationDistribution(model: IncubationModel): IncubationDistribution {
  if (model.family === 'by-day') return byDay(model.cases)
  return {
    title: titleOf(model),
    ...shapeOf(model),
    knots: [0],
    shortestDays: 0,
    longestDays: Number.POSITIVE_INFINITY,
  }
}

/**
 * A model in words.
 *
 * @param model published, or a family with its parameters
 * @throws RangeError when a published model is unknown
 * @source none: it computes nothing of the trade
 * @example
 * titleOf({ family: 'weibull', shape: 2, scaleDays: 7 }) // => "Weibull, shape 2, scale 7 days"
 */
export function titleOf(model: IncubationModel): string {
  switch (model.family) {
    case 'published':
      return publishedModel(model.id).title
    case 'gamma':
      return `gamma, shape ${model.shape}, scale ${model.scaleDays} days`
    case 'weibull':
      return `Weibull, shape ${model.shape}, scale ${model.scaleDays} days`
    case 'lognormal':
      return `lognormal, median ${model.medianDays} days, spread ${model.sdLog}`
    case 'burr':
      return `Burr, shapes ${model.shape} and ${model.tailShape}, scale ${model.scaleDays} days`
    default:
      return `${model.cases.reduce((sum, count) => sum + count, 0)} cases counted by day`
  }
}

/**
 * The row of a published model.
 *
 * @param id of `reference/incubation/models.json`
 * @throws RangeError when it is unknown
 * @source none: it looks up
 * @example
 * publishedModel('gamma-a').shape // => 4.96
 */
export function publishedModel(id: string): { title: string; shape: number; scaleDays: number } {
  const row = models.models.find((each) => each.id === id)
  if (row === undefined)
    throw new RangeError(
      `Cannot tell an incubation because only ${models.models.map((each) => each.id).join(', ')} are known: got ${id}`,
    )
  return { title: row.title, shape: row.shape, scaleDays: row.scaleDays ?? 1 / (row.ratePerDay ?? 1) }
}

function shapeOf(model: Exclude<IncubationModel, { family: 'by-day' }>): Shape {
  switch (model.family) {
    case 'published':
      return gamma(publishedModel(model.id))
    case 'gamma':
      return gamma(model)
    case 'lognormal':
      return lognormal(Math.log(model.medianDays), model.sdLog)
    case 'weibull':
      return weibull(model)
    default:
      return burr(model)
  }
}

function gamma({ shape, scaleDays }: { shape: number; scaleDays: number }): Shape {
  const unit = logGamma(shape)
  const logScale = Math.log(scaleDays)
  return {
    logLower: (days) => unit.logLower(days / scaleDays),
    logUpper: (days) => unit.logUpper(days / scaleDays),
    logDensity: (days) => unit.logDensity(days / scaleDays) - logScale,
  }
}

function lognormal(meanLog: number, sdLog: number): Shape {
  const z = (days: number): number => (Math.log(days) - meanLog) / sdLog
  const scale = Math.log(sdLog * Math.sqrt(2 * Math.PI))
  return {
    logLower: (days) => logNormalCdf(z(days)),
    logUpper: (days) => logNormalCdf(-z(days)),
    logDensity: (days) => -(z(days) ** 2) / 2 - scale - Math.log(days),
  }
}

function weibull({ shape, scaleDays }: { shape: number; scaleDays: number }): Shape {
  const logPower = (days: number): number => shape * Math.log(days / scaleDays)
  return {
    logLower: (days) => logOfRest(-Math.exp(logPower(days)), logPower(days)),
    logUpper: (days) => -Math.exp(logPower(days)),
    logDensity: (days) => Math.log(shape / days) + logPower(days) - Math.exp(logPower(days)),
  }
}

function burr(model: { shape: number; tailShape: number; scaleDays: number }): Shape {
  const { shape, tailShape, scaleDays } = model
  const logPower = (days: number): number => shape * Math.log(days / scaleDays)
  /** ln(1 + e^p), also where e^p is no number. */
  const grown = (p: number): number => (p > 0 ? p + Math.log1p(Math.exp(-p)) : Math.log1p(Math.exp(p)))
  const logUpper = (days: number): number => -tailShape * grown(logPower(days))
  return {
    logLower: (days) => logOfRest(logUpper(days), Math.log(tailShape) + logPower(days)),
    logUpper,
    logDensity: (days) =>
      Math.log((shape * tailShape) / days) + logPower(days) - (tailShape + 1) * grown(logPower(days)),
  }
}

/** Under this, 1 − e^log is −log to all digits, and its logarithm is known beforehand. */
const TINY = 1e-17

/** ln(1 − e^log); `whenTiny` where that is next to nothing. */
function logOfRest(log: number, whenTiny: number): number {
  return log > -TINY ? whenTiny : Math.log(-Math.expm1(log))
}

function byDay(cases: readonly number[]): IncubationDistribution {
  const total = cases.reduce((sum, count) => sum + count, 0)
  if (!(total > 0)) throw new RangeError('Cannot tell an incubation because no case is counted by day')
  const first = cases.findIndex((count) => count > 0)
  const last = cases.findLastIndex((count) => count > 0) + 1
  const upTo = (day: number): number => cases.slice(0, day).reduce((sum, count) => sum + count, 0)
  const sums = Array.from({ length: last + 1 }, (_, day) => upTo(day) / total)
  const share = (days: number): number => {
    const day = Math.min(Math.floor(days), last)
    return (sums[day] ?? 1) + (days - day) * ((sums[day + 1] ?? 1) - (sums[day] ?? 1))
  }
  return {
    title: titleOf({ family: 'by-day', cases: [...cases] }),
    logLower: (days) => Math.log(share(days)),
    logUpper: (days) => Math.log1p(-Math.min(1, share(days))),
    logDensity: (days) => Math.log((cases[Math.floor(days)] ?? 0) / total),
    knots: sums.map((_, day) => day),
    shortestDays: first,
    longestDays: last,
  }
}
