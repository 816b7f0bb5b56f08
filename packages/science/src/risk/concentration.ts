import * as z from 'zod'
import { field, measure } from '../catalogue/fields.ts'
import type { RandomSource } from '../random/random-source.ts'

/** Draws take as long for any spread, and the largest stays a number. */
const WIDEST_SD = 100
const LARGEST_SHAPE = 1e6
const SMALLEST_SHAPE = 1e-3
const ML_PER_L = 1000

const scope = () =>
  field(z.enum(['between-showers', 'unknown-level']).default('between-showers'), {
    what: 'what spreads: the level from shower to shower (between-showers), or what is known of one level that lasts all year (unknown-level)',
  })

/**
 * What is known of Legionella in the water where it is more than one number.
 *
 * @source none: it computes nothing of the trade
 */
export const concentrationField = () =>
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('lognormal'),
      medianCfuPerL: field(measure.positive(), { what: 'median', unit: 'CFU/L' }),
      geometricSd: field(z.number().min(1).max(WIDEST_SD), { what: 'geometric standard deviation; 1 for no spread' }),
      spread: scope(),
    }),
    z.strictObject({
      kind: z.literal('gamma'),
      shape: field(z.number().min(SMALLEST_SHAPE).max(LARGEST_SHAPE), { what: 'shape' }),
      rateLPerCfu: field(measure.positive(), { what: 'rate; the mean is shape divided by rate', unit: 'L/CFU' }),
      spread: scope(),
    }),
    z.strictObject({
      kind: z.literal('counts'),
      colonies: field(measure.count(), { what: 'colonies counted, over all plates together' }),
      examinedMl: field(measure.positive(), { what: 'sample examined, over all those plates together', unit: 'mL' }),
    }),
    z.strictObject({
      kind: z.literal('below'),
      below: field(measure.positive(), {
        what: 'limit of detection of a sample in which nothing was found',
        unit: 'CFU/L',
      }),
    }),
  ])

export type Concentration = z.output<ReturnType<typeof concentrationField>>

/** Draws of CFU/L: of one shower, and of all the others of the same year together. */
export interface ConcentrationDraws {
  one(): number
  /** The sum over the other showers of the year, given what the one drew. */
  others(one: number): number
  /** How many different years stand behind the draws; those of more draws take them again. */
  years: number
}

export interface Drawing {
  random: RandomSource
  perYear: number
  draws: number
  progress?: ((fraction: number) => void) | undefined
}

/**
 * How to draw what is known of the water, and the sum over the other showers of a year.
 *
 * A lognormal or gamma spread between showers is drawn anew for each; a gamma sum is gamma again, lognormal years are simulated shower by
 * shower, 40 million at most, and taken again where more draws are wanted. After a count the level has the gamma distribution of shape
 * count + ½; below a limit it lies anywhere from 0 to the limit, an assumption; both keep one level all year.
 *
 * @param known a number (CFU/L) or what is known in its place
 * @param drawing where chance comes from, showers a year, draws wanted
 * @source jeffreys-poisson
 * @source common-practice
 * @example
 * concentrationDraws(100, { random: { uniform: () => 0.5 }, perYear: 3, draws: 1 }).others(100) // => 200
 */
export function concentrationDraws(known: number | Concentration, drawing: Drawing): ConcentrationDraws {
  const { random, perYear, draws } = drawing
  const one = drawOne(known, random)
  const level = { one, others: (drawn: number) => (perYear - 1) * drawn, years: draws }
  if (typeof known === 'number' || perYear === 1) return level
  if (known.kind === 'counts' || known.kind === 'below' || known.spread === 'unknown-level') return level
  if (known.kind === 'gamma') {
    const { shape, rateLPerCfu } = known
    return { one, others: () => random.gamma(shape * (perYear - 1)) / rateLPerCfu, years: draws }
  }
  const years = simulatedYears(one, drawing)
  let year = 0
  return { one, others: () => years[(year = (year + 1) % years.length)] ?? 0, years: years.length }
}

function drawOne(known: number | Concentration, random: RandomSource): () => number {
  if (typeof known === 'number') return () => known
  switch (known.kind) {
    case 'lognormal': {
      const [middle, sd] = [Math.log(known.medianCfuPerL), Math.log(known.geometricSd)]
      return () => Math.exp(middle + sd * random.normal())
    }
    case 'gamma':
      return () => random.gamma(known.shape) / known.rateLPerCfu
    case 'counts': {
      const examinedL = known.examinedMl / ML_PER_L
      return () => random.gamma(known.colonies + 0.5) / examinedL
    }
    default:
      return () => known.below * random.uniform()
  }
}

/** So many showers are simulated in a second or so; years of fewer showers are held to 8 MB. */
const MOST_SHOWERS = 4e7
const MOST_YEARS = 1e6

/**
 * How many years are simulated shower by shower for so many draws.
 *
 * @param draws wanted
 * @param perYear showers a year
 * @source none: it computes nothing of the trade
 * @example
 * yearsToSimulate(1e7, 365) // => 109890
 */
export function yearsToSimulate(draws: number, perYear: number): number {
  return Math.min(draws, MOST_YEARS, Math.floor(MOST_SHOWERS / Math.max(1, perYear - 1)))
}

function simulatedYears(one: () => number, { draws, perYear, progress }: Drawing): Float64Array {
  const years = new Float64Array(yearsToSimulate(draws, perYear))
  for (let year = 0; year < years.length; year++) {
    let sum = 0
    for (let shower = 1; shower < perYear; shower++) sum += one()
    years[year] = sum
    if (year % YEARS_A_TELLING === 0) progress?.(year / years.length)
  }
  return years
}

const YEARS_A_TELLING = 64
