import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { kaplanMeier } from './kaplan-meier.ts'
import { orderStatistics } from './order-statistics.ts'
import { leftCensored, type Reading, type Span, spanOf } from './reading.ts'
import { type Figures, figuresOfPortions, figuresOfValues, type PlacedFigures } from './figures.ts'
import { type MostLikely, mostLikely } from './most-likely.ts'
import { whyNoFit } from './lognormal-fit.ts'
import { type Portion, turnbull } from './turnbull.ts'

export interface CensoredSummaryInput {
  values: Reading[]
  quantiles: number[]
  plottingConstant: number
  level: number
}

export interface CensoredSummary {
  mle?: MostLikely | undefined
  kaplanMeier?:
    | (PlacedFigures & { meanAtSmallestValue?: number | undefined; estimator: 'Kaplan-Meier' | 'Turnbull' })
    | undefined
  orderStatistics?: (Figures & { plottingConstant: number }) | undefined
  leftOut: { method: string; reason: string }[]
  readings: number
  censored: number
  level: number
}

/**
 * Mean, spread and quantiles of readings of which some are only known to be below a limit, above one or between two, by three methods.
 * Wanted because half a limit in place of "not detected" makes results up, and drops the detail that limits differ.
 *
 * mle: the most likely lognormal distribution, with profile-likelihood limits. kaplanMeier: no shape assumed; with readings between limits
 * or above one it is Turnbull's estimate. What lies below the smallest limit, or above the largest, is put at it (a restricted
 * mean, said so), what lies between two in the middle; `meanWithin` says how far that matters. orderStatistics: robust regression on order
 * statistics, values kept, those below a limit taken from the line through the others, with the plotting constant given.
 *
 * Special cases: a method that has no answer for the readings is left out, with the reason; orderStatistics takes values and "below"
 * only, since no plotting positions are published for others.
 *
 * @param input values above 0 or what is known of them, quantiles (0 to 1), plottingConstant (0 to 0.5), level
 * @source helsel-2012
 * @source helsel-cohn-1988
 * @source kaplan-meier-1958
 * @source turnbull-1976
 * @example
 * censoredSummary({ values: [3, 7, { below: 10 }, 20], quantiles: [0.5], plottingConstant: 0, level: 0.95 }).kaplanMeier.median // => 7
 */
export function censoredSummary({ values, quantiles, plottingConstant, level }: CensoredSummaryInput): CensoredSummary {
  const spans = values.map(spanOf)
  const noFit = whyNoFit(spans)
  const left = leftCensored(spans)
  const product = withoutShape(spans, quantiles)
  const filled = left && orderStatistics(left, plottingConstant)
  const noLine = left === undefined ? 'it takes values and "below" only' : 'fewer than two values differ'
  return {
    mle: noFit === undefined ? mostLikely(spans, { quantiles, level }) : undefined,
    kaplanMeier: product,
    orderStatistics: filled && { ...figuresOfValues(filled, quantiles), plottingConstant },
    leftOut: [
      ...(noFit === undefined ? [] : [{ method: 'mle', reason: noFit }]),
      ...(product === undefined
        ? [{ method: 'kaplanMeier', reason: 'no reading is a value or between two limits' }]
        : []),
      ...(filled === undefined ? [{ method: 'orderStatistics', reason: noLine }] : []),
    ],
    readings: spans.length,
    censored: spans.filter(({ low, high }: Span) => low !== high).length,
    level,
  }
}

function withoutShape(spans: readonly Span[], quantiles: readonly number[]): CensoredSummary['kaplanMeier'] {
  if (!spans.some(({ low, high }) => low > 0 && Number.isFinite(high))) return undefined
  const left = leftCensored(spans)
  if (left === undefined) return { ...figuresOfPortions(turnbull(spans), quantiles), estimator: 'Turnbull' }
  const portions = kaplanMeier(left)
  const figures = figuresOfPortions(portions, quantiles)
  return {
    ...figures,
    meanAtSmallestValue: (figures.mean ?? 0) + figures.restrictedMass * gapBelowSmallest(portions),
    estimator: 'Kaplan-Meier',
  }
}

/** From the smallest limit, where the share below it was put, to the smallest value. */
function gapBelowSmallest([first, second]: readonly Portion[]): number {
  return first !== undefined && second !== undefined && first.low === 0 ? second.low - first.high : 0
}

const MOST_VALUES = 100_000
const MOST_QUANTILES = 50

const reading = z.union([
  measure.positive(),
  z.strictObject({ below: measure.positive() }),
  z.strictObject({ above: measure.positive() }),
  z.strictObject({ between: z.tuple([measure.amount(), measure.positive()]) }),
])

const input = z
  .strictObject({
    values: field(z.array(reading).min(1).max(MOST_VALUES), {
      what: 'readings in one unit: a number above 0, {"below": limit}, {"above": limit} or {"between": [a, b]} (at least a, less than b); never 0 or half a limit',
    }),
    quantiles: field(
      z.array(z.number().min(0.001).max(0.999)).max(MOST_QUANTILES).default([0.25, 0.5, 0.75, 0.9, 0.95]),
      {
        what: 'quantiles wanted, 0 to 1',
      },
    ),
    plottingConstant: field(z.number().min(0).max(0.5).default(0), {
      what: 'constant of the plotting positions of order statistics: 0 in most environmental texts, 0.375 in some',
    }),
    level: levelField(),
  })
  .superRefine(({ values }, context) => {
    for (const [row, value] of values.entries())
      if (typeof value === 'object' && 'between' in value && value.between[0] >= value.between[1])
        context.addIssue(refuse(['values', row, 'between', 1], `more than ${value.between[0]}`))
  })

const limits = (what: string) =>
  field(z.object({ lower: z.number().optional(), upper: z.number().optional() }), {
    what: `${what}; a limit without a finite value is left out`,
  })
const number = (what: string) => field(z.number(), { what })
const maybe = (what: string) => field(z.number().optional(), { what: `${what}; left out where undefined` })

const within = (what: string) =>
  field(z.object({ lower: z.number(), upper: z.number().optional() }).optional(), {
    what: `${what}; left out where not needed`,
  })

const figures = {
  mean: maybe('arithmetic mean'),
  sd: maybe('standard deviation'),
  geometricMean: maybe('geometric mean'),
  geometricSd: maybe('geometric standard deviation, a factor'),
  median: maybe('median'),
  quantiles: field(z.array(z.object({ p: number('share at or below'), value: maybe('quantile') })), {
    what: 'quantiles asked for',
  }),
}

const EXAMPLE = {
  values: [
    { below: 10 },
    { below: 10 },
    { below: 100 },
    20,
    50,
    120,
    340,
    900,
    { between: [1000, 3000] as [number, number] },
  ],
  quantiles: [0.5, 0.95],
  plottingConstant: 0,
  level: 0.95,
}

const TAIL =
  'The mean or its upper limit lies far above the readings: it comes from the tail of the fitted curve, not from what was measured. Report the median and the quantiles instead.'

/** A mean above every reading, or a limit of it beyond all of them together even were each as high as the highest. */
function restsOnTail(
  { mean = Infinity, interval }: { mean?: number | undefined; interval: { upper?: number | undefined } },
  readings: readonly Reading[],
): boolean {
  const highest = readings.reduce((most: number, reading) => Math.max(most, highestNamed(reading)), 0)
  return mean > highest || (interval.upper ?? Infinity) > highest * readings.length
}

function highestNamed(reading: Reading): number {
  if (typeof reading === 'number') return reading
  if ('between' in reading) return reading.between[1]
  return 'below' in reading ? reading.below : reading.above
}

export const censoredSummaryCalculation = defineCalculation({
  id: 'censored-summary',
  title: 'Results with values below the limit',
  purpose:
    'Mean, spread and quantiles of counts or concentrations when some are only known to be below a limit, without inventing values.',
  formula: {
    text: 'mle: top of Σ ln f(x) + Σ ln(F(b) − F(a)); mean = e^(μ + σ²/2), geometric mean = e^μ',
    symbols: {
      x: 'values',
      a: 'lower end of an open reading',
      b: 'upper end of an open reading',
      F: 'lognormal distribution',
      μ: 'mle.meanLog',
      σ: 'mle.sdLog',
    },
  },
  input,
  output: z.object({
    mle: field(
      z
        .object({
          ...figures,
          meanLog: number('mean of the natural logarithms'),
          sdLog: number('standard deviation of the natural logarithms'),
          logLikelihood: number('at the top'),
          interval: limits('limits of the mean'),
          geometricMeanInterval: limits('limits of the geometric mean'),
          geometricSdInterval: limits('limits of the geometric standard deviation'),
        })
        .optional(),
      { what: 'most likely lognormal distribution, with profile-likelihood limits; left out where there is none' },
    ),
    kaplanMeier: field(
      z
        .object({
          ...figures,
          quantiles: field(
            z.array(
              z.object({
                p: number('share at or below'),
                value: maybe('quantile'),
                within: within('limits around it'),
              }),
            ),
            { what: 'quantiles asked for' },
          ),
          medianWithin: within('limits around the median, where the readings tell no more'),
          meanWithin: field(z.object({ lower: z.number(), upper: z.number().optional() }), {
            what: 'the mean with every share without a place at its lower end, and at its upper; upper left out where there is none',
          }),
          restricted: field(z.boolean(), {
            what: 'whether a share below the smallest limit or above the largest was put at that limit',
          }),
          restrictedMass: number('that share, 0 to 1'),
          middledMass: number('share only known to lie between two numbers and put in the middle, 0 to 1'),
          meanAtSmallestValue: maybe(
            'mean if the share below the smallest limit were put at the smallest value instead, as some programs do',
          ),
          estimator: field(z.enum(['Kaplan-Meier', 'Turnbull']), {
            what: 'Turnbull where a reading lies between two limits or above one',
          }),
        })
        .optional(),
      { what: 'no shape assumed; the spread is that of the distribution' },
    ),
    orderStatistics: field(
      z.object({ ...figures, plottingConstant: number('constant of the plotting positions') }).optional(),
      {
        what: 'robust regression on order statistics, for values and "below" only; quantiles by linear interpolation, spread with n - 1',
      },
    ),
    leftOut: field(
      z.array(
        z.object({
          method: field(z.string(), { what: 'method without an answer' }),
          reason: field(z.string(), { what: 'why' }),
        }),
      ),
      { what: 'methods left out' },
    ),
    readings: number('readings in all'),
    censored: number('how many of them are open'),
    level: number('confidence level of the intervals'),
  }),
  sources: sourcesOf(
    'helsel-2012',
    'helsel-cohn-1988',
    'kaplan-meier-1958',
    'turnbull-1976',
    'wellner-zhan-1997',
    'burridge-1981',
  ),
  cautionsFor: ({ input: { values }, result: { mle } }) =>
    mle !== undefined && restsOnTail(mle, values) ? [TAIL] : [],
  cautions: [
    'With more than about four in five readings below the limit, or fewer than about five values, every method guesses: report the positives and their limits instead.',
    'The lognormal mean is driven by the tail. Legionella counts of one building differ by day and tap far more than these limits tell.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      mle: {
        mean: 932.4076886341429,
        sd: 15905.065262281729,
        geometricMean: 54.56714699461555,
        geometricSd: 10.832790165347202,
        median: 54.56714699461555,
        quantiles: [
          { p: 0.5, value: 54.56714699461555 },
          { p: 0.95, value: 2747.436310629962 },
        ],
        meanLog: 3.999431998259404,
        sdLog: 2.382577660827266,
        logLikelihood: -40.50933934050364,
        interval: { lower: 110.00633339811043, upper: 9983648.655641252 },
        geometricMeanInterval: { lower: 5.064456795757828, upper: 314.79407238604153 },
        geometricSdInterval: { lower: 4.161785832421502, upper: 151.6945940398317 },
      },
      kaplanMeier: {
        mean: 385.83333333333314,
        sd: 632.8128343620517,
        geometricMean: 79.7572729954052,
        geometricSd: 6.583792150322751,
        median: 50,
        quantiles: [
          { p: 0.5, value: 50 },
          { p: 0.95, within: { lower: 1000, upper: 3000 } },
        ],
        meanWithin: { lower: 271.94444444444434, upper: 496.94444444444434 },
        restricted: true,
        restrictedMass: 0.2777777777777701,
        middledMass: 0.11111111111111112,
        estimator: 'Turnbull',
      },
      leftOut: [{ method: 'orderStatistics', reason: 'it takes values and "below" only' }],
      readings: 9,
      censored: 4,
      level: 0.95,
    },
  },
  run: censoredSummary,
})
