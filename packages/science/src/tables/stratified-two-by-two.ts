import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { gammaCdf } from '../distributions/gamma.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import { breslowDay, type HomogeneityTest } from './homogeneity.ts'
import type { OpenInterval } from './open-interval.ts'

export interface Stratum {
  exposedCases: number
  exposedWell: number
  unexposedCases: number
  unexposedWell: number
}

export interface StratifiedTwoByTwo {
  mantelHaenszelOddsRatio?: number | undefined
  interval: OpenInterval
  mantelHaenszelRiskRatio: { estimate?: number | undefined; interval: OpenInterval }
  association: { chiSquared: number; p: number }
  homogeneity?: HomogeneityTest | undefined
  informativeTables: number
  level: number
}

/**
 * One odds ratio out of several 2×2 tables (by ward, sex, age …), so that what goes with both exposure and illness does not pass for
 * the exposure. Wanted when two exposures go together.
 *
 * OR = Σ a·d/n / Σ b·c/n; limits on ln OR by the variance of Robins, Breslow and Greenland. RR = Σ a(c+d)/n / Σ c(a+b)/n, limits
 * after Greenland and Robins. association: Mantel and Haenszel's chi-squared without continuity correction. homogeneity: Breslow and
 * Day's, and with Tarone's correction.
 *
 * Special cases: a table with an empty row or column tells nothing and is passed over; an infinite estimate or limit is left out;
 * the estimate is 0 with a lower limit of 0 where no table has exposed cases beside well unexposed people.
 *
 * @param input tables of four whole counts, and level
 * @throws RangeError when no table has people in both rows and both columns
 * @source mantel-haenszel-1959
 * @source robins-breslow-greenland-1986
 * @source greenland-robins-1985
 * @source breslow-day-1980
 * @source tarone-1985
 * @example
 * stratifiedTwoByTwo({ tables: [{ exposedCases: 4, exposedWell: 1, unexposedCases: 2, unexposedWell: 3 }], level: 0.95 }).mantelHaenszelOddsRatio // => 6
 */
export function stratifiedTwoByTwo(input: { tables: Stratum[]; level: number }): StratifiedTwoByTwo {
  const { level } = input
  const tables = input.tables.filter(informative)
  if (tables.length === 0)
    throw new RangeError('Cannot compare because a table must have people in both rows and columns: got none')
  const z = twoSidedNormalQuantile(level)
  const odds = oddsRatio(tables)
  return {
    mantelHaenszelOddsRatio: odds.estimate,
    interval: around(odds, z),
    mantelHaenszelRiskRatio: ratioWithLimits(riskRatio(tables), z),
    association: association(tables),
    homogeneity:
      tables.length > 1 && odds.estimate !== undefined && odds.estimate > 0
        ? breslowDay(tables, odds.estimate)
        : undefined,
    informativeTables: tables.length,
    level,
  }
}

/**
 * Whether a table has people in both rows and both columns.
 *
 * @param table four counts
 * @source mantel-haenszel-1959
 * @example
 * informative({ exposedCases: 1, exposedWell: 0, unexposedCases: 3, unexposedWell: 0 }) // => false
 */
export function informative({
  exposedCases: a,
  exposedWell: b,
  unexposedCases: c,
  unexposedWell: d,
}: Stratum): boolean {
  return a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0
}

interface Ratio {
  estimate?: number | undefined
  /** Variance of the logarithm, where there is one. */
  variance?: number | undefined
}

function around({ estimate, variance }: Ratio, z: number): OpenInterval {
  if (estimate === undefined) return {}
  if (variance === undefined) return { lower: 0 }
  const half = z * Math.sqrt(variance)
  const upper = estimate * Math.exp(half)
  return { lower: estimate * Math.exp(-half), upper: Number.isFinite(upper) ? upper : undefined }
}

function ratioWithLimits(ratio: Ratio, z: number): { estimate?: number | undefined; interval: OpenInterval } {
  return { estimate: ratio.estimate, interval: around(ratio, z) }
}

function oddsRatio(tables: readonly Stratum[]): Ratio {
  let [r, s, pr, mixed, qs] = [0, 0, 0, 0, 0]
  for (const { exposedCases: a, exposedWell: b, unexposedCases: c, unexposedWell: d } of tables) {
    const n = a + b + c + d
    const [R, S, P, Q] = [(a * d) / n, (b * c) / n, (a + d) / n, (b + c) / n]
    r += R
    s += S
    pr += P * R
    mixed += P * S + Q * R
    qs += Q * S
  }
  if (s === 0) return {}
  if (r === 0) return { estimate: 0 }
  return { estimate: r / s, variance: pr / (2 * r * r) + mixed / (2 * r * s) + qs / (2 * s * s) }
}

function riskRatio(tables: readonly Stratum[]): Ratio {
  let [above, below, spread] = [0, 0, 0]
  for (const { exposedCases: a, exposedWell: b, unexposedCases: c, unexposedWell: d } of tables) {
    const n = a + b + c + d
    above += (a * (c + d)) / n
    below += (c * (a + b)) / n
    spread += ((a + c) * (a + b) * (c + d) - a * c * n) / (n * n)
  }
  if (below === 0) return {}
  return above === 0 ? { estimate: 0 } : { estimate: above / below, variance: spread / (above * below) }
}

function association(tables: readonly Stratum[]): { chiSquared: number; p: number } {
  let [excess, variance] = [0, 0]
  for (const { exposedCases: a, exposedWell: b, unexposedCases: c, unexposedWell: d } of tables) {
    const n = a + b + c + d
    excess += a - ((a + b) * (a + c)) / n
    variance += (((a + b) * (c + d)) / n) * (((a + c) * (b + d)) / n / (n - 1))
  }
  const chiSquared = (excess * excess) / variance
  return { chiSquared, p: gammaCdf(chiSquared / 2, { shape: 0.5, tail: 'upper' }) }
}

const MOST_TABLES = 10_000

const input = z
  .strictObject({
    tables: field(
      z
        .array(
          z.strictObject({
            exposedCases: field(measure.count(), { what: 'ill, exposed' }),
            exposedWell: field(measure.count(), { what: 'well, exposed' }),
            unexposedCases: field(measure.count(), { what: 'ill, not exposed' }),
            unexposedWell: field(measure.count(), { what: 'well, not exposed' }),
          }),
        )
        .min(1)
        .max(MOST_TABLES),
      { what: 'one table for each group, such as a ward or an age band' },
    ),
    level: levelField(),
  })
  .superRefine(({ tables }, context) => {
    if (tables.length > 0 && !tables.some(informative))
      context.addIssue(
        refuse(['tables'], { expected: 'a table with people in both rows and both columns', received: 'none' }),
      )
  })

const limits = (what: string) =>
  field(z.object({ lower: z.number().optional(), upper: z.number().optional() }), {
    what: `${what}; a limit without a finite value is left out`,
  })
const ratio = (what: string) => field(z.number().optional(), { what: `${what}; left out where infinite` })

const EXAMPLE = {
  tables: [
    { exposedCases: 27, exposedWell: 4, unexposedCases: 3, unexposedWell: 10 },
    { exposedCases: 16, exposedWell: 7, unexposedCases: 0, unexposedWell: 8 },
  ],
  level: 0.95,
}

export const stratifiedTwoByTwoCalculation = defineCalculation({
  id: 'stratified-two-by-two',
  title: 'Exposure and illness, in groups',
  purpose: 'How strongly an exposure goes with illness once people are compared within their own group only.',
  formula: {
    text: 'OR = Σ a·d/n / Σ b·c/n',
    symbols: {
      OR: 'mantelHaenszelOddsRatio',
      a: 'tables[].exposedCases',
      b: 'tables[].exposedWell',
      c: 'tables[].unexposedCases',
      d: 'tables[].unexposedWell',
      n: 'people of a table',
    },
  },
  input,
  output: z.object({
    mantelHaenszelOddsRatio: ratio('odds ratio over all tables'),
    interval: limits('limits of the odds ratio'),
    mantelHaenszelRiskRatio: field(
      z.object({ estimate: ratio('ratio of attack rates over all tables'), interval: limits('its limits') }),
      { what: 'risk ratio; only for a cohort, not for a case-control study' },
    ),
    association: field(
      z.object({
        chiSquared: field(z.number(), { what: 'without continuity correction, one degree of freedom' }),
        p: field(z.number(), { what: 'p value' }),
      }),
      { what: 'test of no association in any table' },
    ),
    homogeneity: field(
      z
        .object({
          breslowDay: field(z.number(), { what: 'chi-squared' }),
          tarone: field(z.number(), { what: 'chi-squared with Tarone’s correction' }),
          degreesOfFreedom: field(z.number(), { what: 'tables less one' }),
          p: field(z.number(), { what: 'p value of the corrected one' }),
        })
        .optional(),
      { what: 'test of one odds ratio in all tables; left out for one table and where the estimate is 0 or infinite' },
    ),
    informativeTables: field(z.number(), { what: 'tables with people in both rows and both columns' }),
    level: field(z.number(), { what: 'confidence level of the intervals' }),
  }),
  sources: sourcesOf(
    'mantel-haenszel-1959',
    'robins-breslow-greenland-1986',
    'greenland-robins-1985',
    'breslow-day-1980',
    'tarone-1985',
  ),
  cautions: [
    'One number for all groups hides what differs between them: where the test of homogeneity is small, look at the tables one by one.',
    'An association is not a source.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      mantelHaenszelOddsRatio: 37.63978494623656,
      interval: { lower: 7.191632782263888, upper: 197.00024371279844 },
      mantelHaenszelRiskRatio: {
        estimate: 5.727714186611168,
        interval: { lower: 1.9867924565455393, upper: 16.512399015520863 },
      },
      association: { chiSquared: 28.009849413840637, p: 1.2069954887776435e-7 },
      homogeneity: {
        breslowDay: 0.8514115859703097,
        tarone: 0.8155828122379646,
        degreesOfFreedom: 1,
        p: 0.3664748212927297,
      },
      informativeTables: 2,
      level: 0.95,
    },
  },
  run: stratifiedTwoByTwo,
})
