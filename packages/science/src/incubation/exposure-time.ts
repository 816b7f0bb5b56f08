import spread from '@rillmark/reference/incubation/spread.json' with { type: 'json' }
import { daysBetween } from '../calendar/iso-date.ts'
import { momentOf } from '../calendar/day-or-moment.ts'
import type { RunOptions } from '../catalogue/descriptor.ts'
import { placeWhereItEnds } from '../distributions/halving.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import type { ExposureTimeInput } from './exposure-fields.ts'
import { casesOf, localOffset, modelsOf, sourceOf } from './exposure-reading.ts'
import { type IncubationDistribution, incubationDistribution } from './incubation-model.ts'
import { FURTHEST_BACK_DAYS, type LikelihoodCurve, likelihoodCurve, meanLikelihood } from './likelihood-curve.ts'
import { logSum, type Stretch } from './log-chance.ts'
import { chanceOfSpread } from './onset-spread.ts'
import { joined, type OnsetCase, possibleTimes, type Source } from './possible-times.ts'
import { sourceLikelihood } from './source-likelihood.ts'

export interface TimeInterval {
  lower: string
  upper: string
}

export interface ModelAnswer {
  model: string
  /** Left out where the model can't explain the onsets at all. */
  mostLikely?: string | undefined
  interval?: TimeInterval | undefined
  mostLikelyDays?: number | undefined
  intervalDays?: { lower: number; upper: number } | undefined
  logLikelihood?: number | undefined
  weight: number
  backFromMedian: string
  chanceOfSpread?: number | undefined
}

export interface ExposureTime {
  mostLikely: string
  mostLikelyDay: string
  interval: TimeInterval
  credibleInterval: TimeInterval
  supported: { from: string; to: string }[]
  possible: { from?: string | undefined; to: string }
  mostLikelyDays: number
  intervalDays: { lower: number; upper: number }
  credibleIntervalDays: { lower: number; upper: number }
  countedFrom: string
  onsets: number
  chanceOfSpread?: number | undefined
  fits: 'yes' | 'doubtful' | 'no'
  models: ModelAnswer[]
  days: { date: string; share: number }[]
  curve: { at: string; relativeLikelihood: number }[]
  level: number
}

/**
 * When a common source exposed the people who fell ill: the likeliest time (or, for a source that lasts, its start), how far it is certain,
 * and its likelihood over time. Wanted to ask what ran, sprayed or broke on which days, before memory and water have changed.
 *
 * ℓ(t) = Σ over cases of ln [F(b − t) − F(a − t)], the onset between a and b, F the incubation distribution; of ln f(a − t) for a moment.
 * A source that lasts d days, or a case present only at times, takes the mean of that over the moments of exposure, all alike. The interval
 * holds every t with 2(ℓ max − ℓ(t)) at most the chi-squared quantile of 1 degree of freedom; the credible interval and the days are
 * of ℓ with a flat prior. Several models: the mean of their likelihoods, each as likely beforehand; weights are their shares of it.
 *
 * Shapes: `curve` and `days` run forward in time; `models` as given.
 *
 * Special cases: onsets further apart than one source explains give a time all the same, with `fits` "no" and the chance of so wide a
 * spread; onsets no model can explain at all (stays without a common moment, a model with an end) are refused. A model that can't explain
 * them while another can has weight 0 and no time. Days are reckoned at most 4,000 back. An interval of several parts is given from its first to its last moment, and
 * the parts in `supported`.
 *
 * @param input onsets (day, moment or from–to; with stays where known), models, duration (d), limits of the source, level
 * @param options told how much is done, a model at a time
 * @throws RangeError when a day doesn't exist, a model is unknown, or no model can explain the onsets
 * @source egan-2011
 * @source cdc-point-source
 * @example
 * exposureTime({ onsets: [{ from: '2026-03-10', present: [] }], models: [], durationDays: 0, level: 0.95 }).mostLikelyDay // => "2026-03-05"
 */
export function exposureTime(input: ExposureTimeInput, { progress }: RunOptions = {}): ExposureTime {
  const { cases, origin } = casesOf(input)
  const source = sourceOf(input)
  const drop = twoSidedNormalQuantile(input.level) ** 2 / 2
  const models = modelsOf(input)
  const fits = models.map((model, done) => {
    progress?.(done / (2 * models.length))
    return fitOf(incubationDistribution(model), { cases, source, drop })
  })
  progress?.(0.5)
  const explored = fits.flatMap(({ found }) => (found === undefined ? [] : [found]))
  const [only] = explored
  if (only === undefined)
    throw new RangeError('Cannot find the time of exposure because no model can explain every onset')
  const all = explored.length === 1 ? only : together(explored, drop)
  const integrals = logSum(explored.map(({ curve }) => curve.logIntegral))
  const clock: Clock = { origin, offset: localOffset(input) }
  return {
    ...combinedAnswer(all, { clock, level: input.level }),
    possible: possibleOf(explored, clock),
    countedFrom: dayOf(0, clock),
    onsets: cases.length,
    ...spreadOf(fits, cases, source),
    models: fits.map((fit) => modelAnswer(fit, { clock, integrals, cases, source })),
    level: input.level,
  }
}

interface Clock {
  origin: number
  offset: number | undefined
}

interface Explored {
  at: (t: number) => number
  curve: LikelihoodCurve
  stretches: Stretch[]
}

interface Fit {
  distribution: IncubationDistribution
  found: Explored | undefined
}

function fitOf(
  distribution: IncubationDistribution,
  { cases, source, drop }: { cases: OnsetCase[]; source: Source; drop: number },
): Fit {
  const { stretches } = possibleTimes(distribution, { cases, source })
  if (stretches.length === 0) return { distribution, found: undefined }
  const at = sourceLikelihood(distribution, { cases, source, stretches })
  return { distribution, found: { at, curve: likelihoodCurve(at, { stretches, drop }), stretches } }
}

function together(explored: readonly Explored[], drop: number): Explored {
  const at = meanLikelihood(explored.map((one) => one.at))
  const stretches = joined(explored.flatMap(({ curve }) => curve.stretches))
  return { at, curve: likelihoodCurve(at, { stretches, drop }), stretches }
}

function combinedAnswer({ at, curve }: Explored, { clock, level }: { clock: Clock; level: number }) {
  const intervalDays = hullOf(curve.supported)
  const credible = { lower: curve.quantile((1 - level) / 2), upper: curve.quantile((1 + level) / 2) }
  return {
    mostLikely: momentAt(curve.at, clock),
    mostLikelyDay: dayOf(curve.at, clock),
    interval: timesOf(intervalDays, clock),
    credibleInterval: timesOf(credible, clock),
    supported: curve.supported.map(({ from, to }) => ({ from: momentAt(from, clock), to: momentAt(to, clock) })),
    mostLikelyDays: curve.at,
    intervalDays,
    credibleIntervalDays: credible,
    days: sharesByDay(curve, clock),
    curve: pointsOf({ at, curve, clock }),
  }
}

function modelAnswer(
  { distribution, found }: Fit,
  given: { clock: Clock; integrals: number; cases: OnsetCase[]; source: Source },
): ModelAnswer {
  const { clock, cases, source } = given
  const rest = {
    backFromMedian: momentAt(medianOnset(cases) - source.durationDays / 2 - medianOf(distribution), clock),
    ...spreadChance(distribution, cases, source),
  }
  if (found === undefined) return { model: distribution.title, weight: 0, ...rest }
  const intervalDays = hullOf(found.curve.supported)
  return {
    model: distribution.title,
    mostLikely: momentAt(found.curve.at, clock),
    interval: timesOf(intervalDays, clock),
    mostLikelyDays: found.curve.at,
    intervalDays,
    logLikelihood: found.curve.top,
    weight: Math.exp(found.curve.logIntegral - given.integrals),
    ...rest,
  }
}

function hullOf(stretches: readonly Stretch[]): { lower: number; upper: number } {
  return { lower: stretches[0]?.from ?? 0, upper: stretches.at(-1)?.to ?? 0 }
}

function timesOf({ lower, upper }: { lower: number; upper: number }, clock: Clock): TimeInterval {
  return { lower: momentAt(lower, clock), upper: momentAt(upper, clock) }
}

function possibleOf(explored: readonly Explored[], clock: Clock): ExposureTime['possible'] {
  const { lower, upper } = hullOf(joined(explored.flatMap(({ stretches }) => stretches)))
  return { ...(Number.isFinite(lower) ? { from: momentAt(lower, clock) } : {}), to: momentAt(upper, clock) }
}

const momentAt = (days: number, { origin, offset }: Clock): string => momentOf(days + origin, offset)
const dayOf = (days: number, clock: Clock): string => momentAt(Math.floor(days), clock).slice(0, 'YYYY-MM-DD'.length)

/** Of the middles of the onsets. */
function medianOnset(cases: readonly OnsetCase[]): number {
  const middles = cases.map(({ onset: { from, to } }) => (from + to) / 2).sort((a, b) => a - b)
  const half = (middles.length - 1) / 2
  return ((middles[Math.floor(half)] ?? 0) + (middles[Math.ceil(half)] ?? 0)) / 2
}

function medianOf({ logLower }: IncubationDistribution): number {
  return placeWhereItEnds((days) => logLower(days) < -Math.LN2, { from: 0, to: FURTHEST_BACK_DAYS })
}

/** Stays shift each case's chances, so that the spread says nothing by itself. */
function spreadChance(distribution: IncubationDistribution, cases: readonly OnsetCase[], source: Source) {
  if (cases.length < 2 || cases.some(({ present }) => present.length > 0)) return {}
  const apartDays = greatest(cases.map(({ onset }) => onset.from)) + greatest(cases.map(({ onset }) => -onset.to))
  const { durationDays } = source
  return { chanceOfSpread: chanceOfSpread(distribution, { cases: cases.length, apartDays, durationDays }) }
}

const greatest = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)

const { doubtedUnder, givenUpUnder } = spread.figures

/** By the model that suits the spread best. */
function spreadOf(
  fits: readonly Fit[],
  cases: readonly OnsetCase[],
  source: Source,
): Pick<ExposureTime, 'chanceOfSpread' | 'fits'> {
  const chances = fits.flatMap(({ distribution }) => spreadChance(distribution, cases, source).chanceOfSpread ?? [])
  if (chances.length === 0) return { fits: 'yes' }
  const best = greatest(chances)
  return {
    chanceOfSpread: best,
    fits: best < givenUpUnder.value ? 'no' : best < doubtedUnder.value ? 'doubtful' : 'yes',
  }
}

/** Days with less than this share are not listed, but for those between others. */
const LEAST_SHARE = 0.0005
const MOST_DAYS = 400

function sharesByDay(curve: LikelihoodCurve, clock: Clock): ExposureTime['days'] {
  const [first, last] = [Math.floor(curve.quantile(LEAST_SHARE)), Math.floor(curve.quantile(1 - LEAST_SHARE))]
  const start = Math.max(first, last - MOST_DAYS + 1)
  return Array.from({ length: last - start + 1 }, (_, index) => ({
    date: dayOf(start + index, clock),
    share: curve.shareUpTo(start + index + 1) - curve.shareUpTo(start + index),
  }))
}

const STEP_HOURS = [1, 2, 3, 6, 12, 24]
const HOURS_PER_DAY = 24
const AIM_POINTS = 72

/** On round hours, over the days listed. */
function pointsOf({
  at,
  curve,
  clock,
}: {
  at: (t: number) => number
  curve: LikelihoodCurve
  clock: Clock
}): ExposureTime['curve'] {
  const days = sharesByDay(curve, clock)
  const hours = Math.max(1, days.length) * HOURS_PER_DAY
  const step = (STEP_HOURS.find((each) => hours / each <= AIM_POINTS) ?? HOURS_PER_DAY) / HOURS_PER_DAY
  const first = daysBetween(dayOf(0, clock), days[0]?.date ?? dayOf(0, clock))
  return Array.from({ length: Math.round(hours / HOURS_PER_DAY / step) + 1 }, (_, index) => ({
    at: momentAt(first + index * step, clock),
    relativeLikelihood: Math.exp(at(first + index * step) - curve.top),
  }))
}
