import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import { likeliestOddsRatio, oddsRatioLimits, type ShiftingCount, tailsOf } from './lattice.ts'
import { exposedCases, exposedCasesUnder, type FixedMargins } from './noncentral-hypergeometric.ts'
import type { OpenInterval } from './open-interval.ts'

export interface TwoByTwoInput {
  exposedCases: number
  exposedWell: number
  unexposedCases: number
  unexposedWell: number
  level: number
}

export interface TwoByTwo {
  oddsRatio: {
    sample?: number | undefined
    conditional?: number | undefined
    interval: OpenInterval
    midPInterval: OpenInterval
  }
  riskRatio: { estimate?: number | undefined; interval: OpenInterval }
  attackRates: { exposed: number; unexposed: number }
  fisherTwoSided: number
  midP: number
  level: number
}

/**
 * How strongly an exposure goes with illness in a 2×2 table: odds ratio with exact and mid-p limits, risk ratio,
 * attack rates (0 to 1) and p values. Wanted to tell which exposure to look at first.
 *
 * The exact limits are the odds ratios ψ at which the chance of as many exposed cases or more (or fewer) is half of
 * 1 − level; mid-p counts the observed table half. `fisherTwoSided` sums tables no more likely than the one seen;
 * `midP` is twice the smaller one-sided mid-p.
 *
 * Special cases: an estimate or limit that is infinite is left out; a lower limit without evidence is 0.
 *
 * @param input four whole counts; each row and column has at least one person
 * @throws RangeError when a row or column is empty
 * @source fisher-exact
 * @source lancaster-mid-p
 * @source katz-1978
 * @example
 * twoByTwo({ exposedCases: 3, exposedWell: 1, unexposedCases: 1, unexposedWell: 3, level: 0.95 }).fisherTwoSided // => 0.4857142857142857
 */
export function twoByTwo(input: TwoByTwoInput): TwoByTwo {
  const empty = emptyMargin(input)
  if (empty !== undefined) throw new RangeError(`Cannot compare because ${empty} must be above 0: got 0`)
  const { exposedCases: a, exposedWell: b, unexposedCases: c, unexposedWell: d, level } = input
  const margins = { exposed: a + b, unexposed: c + d, cases: a + c }
  const count: ShiftingCount = {
    at: exposedCasesUnder({ ...margins, negligible: NOTHING_IN_A_TAIL }),
    observed: a,
    atLeast: a === Math.max(0, margins.cases - margins.unexposed),
    atMost: a === Math.min(margins.cases, margins.exposed),
    near: roughLogOdds(input),
  }
  return {
    oddsRatio: {
      sample: finite((a * d) / (b * c)),
      conditional: likeliestOddsRatio(count),
      interval: oddsRatioLimits(count, { level, share: 1 }),
      midPInterval: oddsRatioLimits(count, { level, share: 1 / 2 }),
    },
    riskRatio: riskRatio(input),
    attackRates: { exposed: a / (a + b), unexposed: c / (c + d) },
    ...pValues(margins, a),
    level,
  }
}

/** Beside the tail of a limit, chances below this share of the largest make no difference to a double. */
const NOTHING_IN_A_TAIL = 1e-40

/** The logarithm of the odds ratio with half a person more in every cell, and its standard error. */
function roughLogOdds({ exposedCases, exposedWell, unexposedCases, unexposedWell }: TwoByTwoInput) {
  const [a, b, c, d] = [exposedCases + 0.5, exposedWell + 0.5, unexposedCases + 0.5, unexposedWell + 0.5]
  return { log: Math.log((a * d) / (b * c)), step: Math.sqrt(1 / a + 1 / b + 1 / c + 1 / d) }
}

/** Tables this close in chance count as equally likely. */
const SAME_CHANCE = 1 + 1e-7

function pValues(margins: FixedMargins, observed: number): { fisherTwoSided: number; midP: number } {
  const { least, chances } = exposedCases(margins, 0)
  const own = chances[observed - least] ?? 0
  const notMoreLikely = chances.reduce((sum, chance) => (chance <= own * SAME_CHANCE ? sum + chance : sum), 0)
  const { above, below } = tailsOf({ least, chances }, { observed, share: 1 / 2 })
  return { fisherTwoSided: Math.min(1, notMoreLikely), midP: Math.min(1, 2 * Math.min(above, below)) }
}

function riskRatio({ exposedCases: a, exposedWell: b, unexposedCases: c, unexposedWell: d, level }: TwoByTwoInput) {
  const estimate = a / (a + b) / (c / (c + d))
  if (a === 0 || c === 0) return { estimate: finite(estimate), interval: a === 0 ? { lower: 0 } : {} }
  const half = twoSidedNormalQuantile(level) * Math.sqrt(1 / a - 1 / (a + b) + 1 / c - 1 / (c + d))
  return { estimate, interval: { lower: estimate * Math.exp(-half), upper: estimate * Math.exp(half) } }
}

function finite(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined
}

function emptyMargin({
  exposedCases: a,
  exposedWell: b,
  unexposedCases: c,
  unexposedWell: d,
}: Omit<TwoByTwoInput, 'level'>) {
  if (a + b === 0) return 'exposedCases + exposedWell'
  if (c + d === 0) return 'unexposedCases + unexposedWell'
  if (a + c === 0) return 'exposedCases + unexposedCases'
  return b + d === 0 ? 'exposedWell + unexposedWell' : undefined
}

const input = z
  .strictObject({
    exposedCases: field(measure.count(), { what: 'ill, exposed' }),
    exposedWell: field(measure.count(), { what: 'well, exposed' }),
    unexposedCases: field(measure.count(), { what: 'ill, not exposed' }),
    unexposedWell: field(measure.count(), { what: 'well, not exposed' }),
    level: levelField(),
  })
  .superRefine((counts, context) => {
    const empty = emptyMargin(counts)
    if (empty !== undefined)
      context.addIssue(refuse([empty.split(' ')[0] ?? ''], { expected: `${empty} above 0`, received: '0 in all' }))
  })

const openInterval = (what: string) =>
  field(z.object({ lower: z.number().optional(), upper: z.number().optional() }), {
    what: `${what}; a limit without a finite value is left out`,
  })
const estimate = (what: string) =>
  field(z.number().optional(), { what: `${what}; left out where infinite or undefined` })

export const twoByTwoCalculation = defineCalculation({
  id: 'two-by-two',
  title: 'Exposure and illness, 2 × 2',
  purpose: 'How strongly one exposure goes with illness, and how sure that is with few people.',
  formula: {
    text: 'odds ratio = a·d / (b·c); risk ratio = (a/(a+b)) / (c/(c+d)); exact limits from the noncentral hypergeometric tails',
    symbols: { a: 'exposedCases', b: 'exposedWell', c: 'unexposedCases', d: 'unexposedWell' },
  },
  input,
  output: z.object({
    oddsRatio: field(
      z.object({
        sample: estimate('cross product'),
        conditional: estimate('most likely value given the margins'),
        interval: openInterval('exact central limits'),
        midPInterval: openInterval('central mid-p limits'),
      }),
      { what: 'odds ratio' },
    ),
    riskRatio: field(
      z.object({ estimate: estimate('ratio of attack rates'), interval: openInterval('limits on the logarithm') }),
      {
        what: 'risk ratio; only for a cohort, not for a case-control study',
      },
    ),
    attackRates: field(
      z.object({
        exposed: field(z.number(), { what: 'among the exposed' }),
        unexposed: field(z.number(), { what: 'among the others' }),
      }),
      {
        what: 'share ill in each row, 0 to 1',
      },
    ),
    fisherTwoSided: field(z.number(), { what: 'p value, tables no more likely than the one seen' }),
    midP: field(z.number(), { what: 'p value, twice the smaller one-sided mid-p' }),
    level: field(z.number(), { what: 'confidence level of the intervals' }),
  }),
  sources: sourcesOf('fisher-exact', 'lancaster-mid-p', 'katz-1978'),
  cautions: [
    'An association is not a source. Attack rates and the risk ratio mean nothing where controls were picked.',
    'Many exposures tried give a small p value by chance alone.',
  ],
  example: {
    input: { exposedCases: 10, exposedWell: 0, unexposedCases: 3, unexposedWell: 18, level: 0.95 },
    output: {
      oddsRatio: { interval: { lower: 7.393285988718 }, midPInterval: { lower: 9.896764211953 } },
      riskRatio: { estimate: 7, interval: { lower: 2.4553402138, upper: 19.956501227 } },
      attackRates: { exposed: 1, unexposed: 1 / 7 },
      fisherTwoSided: 6.448388708871e-6,
      midP: 6.448388708871e-6,
      level: 0.95,
    },
  },
  run: twoByTwo,
})
