import { normalQuantile } from '../distributions/normal-tail.ts'
import type { OpenInterval } from '../tables/open-interval.ts'
import type { Figures } from './figures.ts'
import { fitLognormal, type LognormalFit, type Profiled, profileLimits } from './lognormal-fit.ts'
import { type LogReadings, lognormalLikelihood, logReadings } from './lognormal-likelihood.ts'
import type { Span } from './reading.ts'

export interface MostLikely extends Figures, LognormalFit {
  /** Of the mean. */
  interval: OpenInterval
  geometricMeanInterval: OpenInterval
  geometricSdInterval: OpenInterval
}

/**
 * The most likely lognormal distribution of readings, its figures and their profile-likelihood limits.
 *
 * Special cases: a figure too large for a number is left out.
 *
 * @param spans readings of which `whyNoFit` says nothing
 * @param asked quantiles (0 to 1) and level
 * @source helsel-2012
 */
export function mostLikely(
  spans: readonly Span[],
  { quantiles, level }: { quantiles: readonly number[]; level: number },
): MostLikely {
  const { unit, readings, start } = inOwnUnit(spans)
  const found = fitLognormal(readings, start)
  const fit = {
    ...found,
    meanLog: found.meanLog + Math.log(unit),
    logLikelihood: found.logLikelihood - readings.values * Math.log(unit),
  }
  const { meanLog, sdLog } = fit
  const errors = roughErrors(readings, found)
  const limitsOf = (profiled: Profiled) =>
    anti(profileLimits(readings, { profiled, top: found.logLikelihood, level }), unit)
  const quantile = (p: number) => finite(Math.exp(meanLog + sdLog * normalQuantile(p)))
  return {
    mean: finite(Math.exp(meanLog + sdLog ** 2 / 2)),
    sd: finite(Math.exp(meanLog + sdLog ** 2 / 2) * Math.sqrt(Math.expm1(sdLog ** 2))),
    geometricMean: finite(Math.exp(meanLog)),
    geometricSd: finite(Math.exp(sdLog)),
    median: quantile(0.5),
    quantiles: quantiles.map((p) => ({ p, value: quantile(p) })),
    ...fit,
    interval: limitsOf({
      estimate: found.meanLog + sdLog ** 2 / 2,
      free: Math.log(sdLog),
      errors: { estimate: errors.meanLog + sdLog * errors.sdLog, free: errors.sdLog / sdLog },
      at: (figure, free) => ({ meanLog: figure - Math.exp(2 * free) / 2, sdLog: Math.exp(free) }),
      by: (_, free) => ({
        figure: { meanLog: 1, sdLog: 0 },
        free: { meanLog: -Math.exp(2 * free), sdLog: Math.exp(free) },
      }),
    }),
    geometricMeanInterval: limitsOf({
      estimate: found.meanLog,
      free: Math.log(sdLog),
      errors: { estimate: errors.meanLog, free: errors.sdLog / sdLog },
      at: (figure, free) => ({ meanLog: figure, sdLog: Math.exp(free) }),
      by: (_, free) => ({ figure: { meanLog: 1, sdLog: 0 }, free: { meanLog: 0, sdLog: Math.exp(free) } }),
    }),
    geometricSdInterval: sdLimits(readings, { fit: found, errors, level }),
  }
}

/** The spread is profiled by its logarithm, so that it stays above 0. */
function sdLimits(
  readings: LogReadings,
  { fit, errors, level }: { fit: LognormalFit; errors: ReturnType<typeof roughErrors>; level: number },
): OpenInterval {
  const { lower, upper } = profileLimits(readings, {
    profiled: {
      estimate: Math.log(fit.sdLog),
      free: fit.meanLog,
      errors: { estimate: errors.sdLog / fit.sdLog, free: errors.meanLog },
      at: (figure, free) => ({ meanLog: free, sdLog: Math.exp(figure) }),
      by: (figure) => ({ figure: { meanLog: 0, sdLog: Math.exp(figure) }, free: { meanLog: 1, sdLog: 0 } }),
    },
    top: fit.logLikelihood,
    level,
  })
  const exp = (log: number | undefined) => (log === undefined ? undefined : Math.exp(log))
  return anti({ lower: exp(lower), upper: exp(upper) }, 1)
}

function anti({ lower, upper }: OpenInterval, unit: number): OpenInterval {
  return {
    lower: lower === undefined ? undefined : unit * Math.exp(lower),
    upper: upper === undefined ? undefined : finite(unit * Math.exp(upper)),
  }
}

/** The readings in a unit of about their own size, in which logarithms of nearly equal readings keep their digits. */
function inOwnUnit(spans: readonly Span[]): {
  unit: number
  readings: LogReadings
  start: { meanLog: number; sdLog: number }
} {
  const { meanLog, sdLog } = startOf(spans)
  const unit = Math.exp(meanLog)
  return {
    unit,
    readings: logReadings(spans.map(({ low, high }) => ({ low: low / unit, high: high / unit }))),
    start: { meanLog: 0, sdLog },
  }
}

function finite(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined
}

/** Open ends as if they were values: good enough to start from. */
function startOf(spans: readonly Span[]): { meanLog: number; sdLog: number } {
  const logs = spans.map(({ low, high }) =>
    Math.log(Number.isFinite(high) ? (low > 0 ? Math.sqrt(low) * Math.sqrt(high) : high) : low),
  )
  const meanLog = logs.reduce((sum, log) => sum + log, 0) / logs.length
  const sdLog = Math.sqrt(logs.reduce((sum, log) => sum + (log - meanLog) ** 2, 0) / logs.length)
  return { meanLog, sdLog: sdLog > 0 ? sdLog : 1 }
}

/** Standard errors from the curvature in 1/σ and μ/σ. */
function roughErrors(readings: LogReadings, { meanLog, sdLog }: LognormalFit): { meanLog: number; sdLog: number } {
  const [tt, te, ee] = lognormalLikelihood(readings, { theta: 1 / sdLog, eta: meanLog / sdLog }).curvature
  const determinant = tt * ee - te * te
  const [varTheta, covariance, varEta] = [-ee / determinant, te / determinant, -tt / determinant]
  const varMean = sdLog ** 2 * (varEta - 2 * meanLog * covariance + meanLog ** 2 * varTheta)
  const safe = (variance: number) => (variance > 0 && Number.isFinite(variance) ? Math.sqrt(variance) : 1)
  return { meanLog: safe(varMean), sdLog: sdLog ** 2 * safe(varTheta) }
}
