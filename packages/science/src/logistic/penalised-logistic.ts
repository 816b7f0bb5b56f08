import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, intervalField, levelField, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { gammaCdf } from '../distributions/gamma.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import type { Interval } from '../distributions/poisson-limits.ts'
import { choleskyOf, solveWith } from '../likelihood/cholesky.ts'
import { dependentColumn, type LogisticRow, namesOf, type ScaledDesign, scaledDesign } from './design.ts'
import { climb, type PenalisedPoint, penalisedPoint } from './penalised-fit.ts'
import { profileLimit } from '../likelihood/profile-limit.ts'

export interface PenalisedLogistic {
  coefficients: Record<string, { estimate: number; interval: Interval; oddsRatio: number; p: number }>
  penalisedLogLikelihood: number
  test: { chiSquared: number; degreesOfFreedom: number; p: number }
  level: number
}

/**
 * A logistic model of illness on several exposures at once, with Firth's penalty, so that it has an answer where an exposure was
 * met by every case or by none. Wanted for outbreaks of a dozen cases.
 *
 * Coefficients (log odds) are the top of ln-likelihood + ½ ln|I|. Limits: where twice the fall of that function, its other
 * coefficients at their best, reaches the chi-squared quantile; the penalty always takes the whole information. `p` and `test` are
 * penalised likelihood-ratio tests of one coefficient, and of all but the intercept.
 *
 * Special cases: always finite, also where all or none are ill; a covariate that the others make up is refused.
 *
 * @param input rows (outcome 0 or 1, and the same numeric covariates in each), level
 * @throws RangeError when a covariate is constant or a combination of the others
 * @source firth-1993
 * @source heinze-schemper-2002
 * @example
 * penalisedLogistic({ rows: [{ outcome: 1 }, { outcome: 0 }], level: 0.95 }).coefficients.intercept.estimate // => 0
 */
export function penalisedLogistic({ rows, level }: { rows: LogisticRow[]; level: number }): PenalisedLogistic {
  const design = scaledDesign(rows)
  const dependent = dependentColumn(rows, design)
  if (dependent !== undefined)
    throw new RangeError(`Cannot tell covariates apart because each must say something of its own: got ${dependent}`)
  const columns = design.names.map((_, j) => j)
  const top = climb(design.patterns, { coefficients: new Float64Array(columns.length), free: columns })
  const none = climb(design.patterns, { coefficients: new Float64Array(columns.length), free: [0] })
  return {
    coefficients: Object.fromEntries(columns.map((j) => [design.names[j], coefficient(design, { top, j, level })])),
    penalisedLogLikelihood: top.logLikelihood + design.scales.reduce((sum, scale) => sum + Math.log(scale), 0),
    test: likelihoodRatio(top.logLikelihood - none.logLikelihood, columns.length - 1),
    level,
  }
}

interface Held {
  top: PenalisedPoint
  j: number
}

function coefficient(design: ScaledDesign, { level, ...held }: Held & { level: number }) {
  const scale = design.scales[held.j] ?? 1
  const best = held.top.coefficients[held.j] ?? 0
  const wanted = twoSidedNormalQuantile(level) ** 2 / 2
  const limit = (side: 1 | -1) =>
    (quickLimit(design, { ...held, side, wanted }) ??
      best + side * whereFallen(profile(design, held), { ...held, side, wanted })) / scale
  const interval = { lower: limit(-1), upper: limit(1) }
  const estimate = best / scale
  return { estimate, interval, oddsRatio: Math.exp(estimate), p: likelihoodRatio(profile(design, held)(0).fall, 1).p }
}

const SAME_FALL = 1e-7
/** A gain that does not change a fall of the likelihood in its twelfth digit. */
const FALL_ENOUGH = 1e-14

/** The limit by one search over all coefficients; nothing where the others can then still do better. */
function quickLimit({ patterns }: ScaledDesign, sought: Held & { side: 1 | -1; wanted: number }): number | undefined {
  const { top, j, wanted } = sought
  const coefficients = profileLimit({ ...sought, at: (beta) => penalisedPoint(patterns, beta) })
  if (coefficients === undefined) return undefined
  const free = [...coefficients.keys()].filter((other) => other !== j)
  const fall = top.logLikelihood - climb(patterns, { coefficients, free, enough: FALL_ENOUGH }).logLikelihood
  return Math.abs(fall - wanted) < SAME_FALL ? coefficients[j] : undefined
}

/** The fall of the penalised likelihood with one coefficient held, and its slope there; each search starts where the one before ended. */
function profile({ patterns }: ScaledDesign, { top, j }: Held) {
  const free = [...top.coefficients.keys()].filter((other) => other !== j)
  const along = alongWith(top, j)
  let near = top.coefficients
  return (value: number) => {
    const moved = value - (near[j] as number)
    const coefficients = near.map((each, k) => each + moved * (along[k] as number))
    coefficients[j] = value
    const point = climb(patterns, { coefficients, free, enough: FALL_ENOUGH })
    if (Number.isFinite(point.logLikelihood)) near = point.coefficients
    return { fall: top.logLikelihood - point.logLikelihood, slope: -(point.score[j] ?? 0) }
  }
}

/** How far the others go when one coefficient goes by 1, at the top. */
function alongWith({ information }: PenalisedPoint, j: number): Float64Array {
  const size = Math.sqrt(information.length)
  const root = choleskyOf(information, size)
  const unit = Float64Array.from({ length: size }, (_, k) => Number(k === j))
  if (root === undefined) return unit
  const column = solveWith(root, unit)
  return column.map((part) => part / (column[j] as number))
}

const ENOUGH_STEPS = 100
const AGREEMENT = 1e-11

/** Slow and sure, where the search over all coefficients doesn't settle: how far from the top the fall reaches what is wanted. Newton's step inside a bracket, doubling while there is no far end. */
function whereFallen(
  at: ReturnType<typeof profile>,
  { top, j, side, wanted }: Held & { side: 1 | -1; wanted: number },
): number {
  const best = top.coefficients[j] ?? 0
  let [low, high] = [0, Number.POSITIVE_INFINITY]
  let distance = standardError(top, j) * Math.sqrt(2 * wanted)
  for (let step = 0; step < ENOUGH_STEPS; step++) {
    const { fall, slope } = at(best + side * distance)
    if (fall < wanted) low = distance
    else high = distance
    const newton = distance - (fall - wanted) / (side * slope)
    const next =
      newton > low && newton < Math.min(high, 4 * distance)
        ? newton
        : high < Number.POSITIVE_INFINITY
          ? (low + high) / 2
          : 2 * distance
    if (Math.abs(next - distance) <= AGREEMENT * distance) return next
    distance = next
  }
  return distance
}

function standardError({ information }: PenalisedPoint, j: number): number {
  const size = Math.sqrt(information.length)
  const root = choleskyOf(information, size)
  const unit = Float64Array.from({ length: size }, (_, k) => Number(k === j))
  return root === undefined ? 1 : Math.sqrt(solveWith(root, unit)[j] ?? 1)
}

function likelihoodRatio(fall: number, degreesOfFreedom: number) {
  const chiSquared = 2 * Math.max(0, fall)
  const p = degreesOfFreedom === 0 ? 1 : gammaCdf(chiSquared / 2, { shape: degreesOfFreedom / 2, tail: 'upper' })
  return { chiSquared, degreesOfFreedom, p }
}

const MOST_ROWS = 20_000
const MOST_COVARIATES = 20
const LARGEST = 1e9

const input = z
  .strictObject({
    rows: field(
      z
        .array(
          z
            .object({ outcome: field(z.union([z.literal(0), z.literal(1)]), { what: '1 ill, 0 well' }) })
            .catchall(z.number().min(-LARGEST).max(LARGEST)),
        )
        .min(1)
        .max(MOST_ROWS),
      {
        what: 'one row a person: outcome, and under their own names the same numeric covariates in every row (1 and 0 for yes and no)',
      },
    ),
    level: levelField(),
  })
  .superRefine(({ rows }, context) => {
    const names = namesOf(rows)
    if (names.includes('intercept'))
      context.addIssue(refuse(['rows', 0, 'intercept'], 'another name: the intercept is added by itself'))
    if (names.length > MOST_COVARIATES)
      context.addIssue(
        refuse(['rows'], { expected: `at most ${MOST_COVARIATES} covariates`, received: String(names.length) }),
      )
    let missing = 0
    for (const [row, given] of rows.entries())
      for (const name of names)
        if (given[name] === undefined && (missing += 1) <= MOST_TOLD)
          context.addIssue(refuse(['rows', row, name], 'a number, as in the other rows'))
    if (missing > 0 || names.length > MOST_COVARIATES || names.includes('intercept')) return
    const dependent = rows.length === 0 ? undefined : dependentColumn(rows)
    if (dependent !== undefined)
      context.addIssue(
        refuse(['rows', 0, dependent], isConstant(rows, dependent) ? SAME_IN_EVERY_ROW : MADE_UP_OF_OTHERS),
      )
  })

const MOST_TOLD = 20

const isConstant = (rows: readonly LogisticRow[], name: string): boolean =>
  rows.every((row) => row[name] === rows[0]?.[name])

const SAME_IN_EVERY_ROW = { expected: 'a covariate that differs between rows', received: 'the same in every row' }
const MADE_UP_OF_OTHERS = {
  expected: 'a covariate that says something the others do not',
  received: 'one that follows from the others',
}

const people = (row: { outcome: 0 | 1; visited: number }, count: number) => Array.from({ length: count }, () => row)
const EXAMPLE = {
  rows: [
    ...people({ outcome: 1, visited: 1 }, 10),
    ...people({ outcome: 0, visited: 1 }, 3),
    ...people({ outcome: 0, visited: 0 }, 18),
  ],
  level: 0.95,
}

export const penalisedLogisticCalculation = defineCalculation({
  id: 'penalised-logistic',
  title: 'Several exposures at once',
  purpose:
    'Which of several exposures goes with illness when the others are held, also with few cases or an exposure that all of them share.',
  formula: {
    text: 'logit π = β₀ + Σ βⱼ·xⱼ, at the top of ln-likelihood + ½·ln|I|',
    symbols: { π: 'chance of illness', βⱼ: 'coefficients', xⱼ: 'covariates of rows', I: 'information' },
  },
  input,
  output: z.object({
    coefficients: field(
      z.record(
        z.string(),
        z.object({
          estimate: field(z.number(), { what: 'natural logarithm of the odds ratio per unit of the covariate' }),
          interval: intervalField({ what: 'profile-penalised-likelihood limits' }),
          oddsRatio: field(z.number(), { what: 'its odds ratio' }),
          p: field(z.number(), { what: 'p value, penalised likelihood ratio' }),
        }),
      ),
      { what: 'by name, the intercept among them' },
    ),
    penalisedLogLikelihood: field(z.number(), { what: 'at the estimates' }),
    test: field(
      z.object({
        chiSquared: field(z.number(), { what: 'penalised likelihood ratio' }),
        degreesOfFreedom: field(z.number(), { what: 'covariates' }),
        p: field(z.number(), { what: 'p value' }),
      }),
      { what: 'test of all covariates together' },
    ),
    level: field(z.number(), { what: 'confidence level of the intervals' }),
  }),
  sources: sourcesOf('firth-1993', 'heinze-schemper-2002'),
  cautions: [
    'An association is not a source, and a model does not mend a poor choice of controls.',
    'With few cases keep to one or two exposures; every covariate more costs certainty.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      coefficients: {
        intercept: {
          estimate: -3.610917912644205,
          interval: { lower: -8.457705151041477, upper: -1.6230075491946518 },
          oddsRatio: 0.027027027027027556,
          p: 0.0000031626187734746885,
        },
        visited: {
          estimate: 4.709530201312313,
          interval: { lower: 2.3364227591829425, upper: 9.653987275243239 },
          oddsRatio: 110.99999999999761,
          p: 0.0000032887922848092508,
        },
      },
      penalisedLogLikelihood: -7.457187117867645,
      test: { chiSquared: 21.640239756364657, degreesOfFreedom: 1, p: 0.000003288792284809237 },
      level: 0.95,
    },
  },
  run: penalisedLogistic,
})
