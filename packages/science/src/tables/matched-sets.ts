import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { risingRoot } from '../distributions/rising-root.ts'
import { oddsRatioLimits, type ShiftingCount, tailsOf } from './lattice.ts'
import { type AlikeSets, exposedCaseChance, exposedCaseSets } from './matched-distribution.ts'
import type { OpenInterval } from './open-interval.ts'

export interface MatchedSet {
  caseExposed: boolean
  controls: number
  controlsExposed: number
}

export interface MatchedSets {
  oddsRatio: number
  estimate: 'conditional maximum likelihood' | 'median-unbiased'
  interval: OpenInterval
  midPInterval: OpenInterval
  p: number
  midP: number
  informativeSets: number
  level: number
}

/**
 * The odds ratio of an exposure from cases each matched to one or more controls, exactly. Wanted because matched sets must not be
 * pooled into one table, and outbreaks are too small for large-sample limits.
 *
 * In a set with m of M + 1 people exposed the case is an exposed one with chance m·ψ / (m·ψ + M + 1 − m); the number of sets with an
 * exposed case, under those chances, gives estimate and limits. `p` is twice the smaller tail, `midP` twice the smaller mid-p.
 *
 * Special cases: a set in which all or none are exposed tells nothing. Where every telling case was exposed (or none), the
 * likelihood has no top: the estimate is the median-unbiased one, at which that outcome has chance ½; one limit is 0 or left out.
 *
 * @param input sets (case exposed or not, controls, controls exposed), level
 * @throws RangeError when no set has both exposed and unexposed people
 * @source breslow-day-1980
 * @source hirji-1989
 * @source lancaster-mid-p
 * @example
 * matchedSets({ sets: [{ caseExposed: true, controls: 1, controlsExposed: 0 }], level: 0.95 }).oddsRatio // => 1
 */
export function matchedSets({ sets, level }: { sets: MatchedSet[]; level: number }): MatchedSets {
  const telling = sets.filter(tells)
  if (telling.length === 0)
    throw new RangeError('Cannot compare because a set must have exposed and unexposed people: got none')
  const groups = alike(telling)
  const observed = telling.filter(({ caseExposed }) => caseExposed).length
  const count = shiftingCount(groups, { observed, all: telling.length })
  return {
    ...pointEstimate(groups, count),
    interval: oddsRatioLimits(count, { level, share: 1 }),
    midPInterval: oddsRatioLimits(count, { level, share: 1 / 2 }),
    ...pValues(groups, observed),
    informativeSets: telling.length,
    level,
  }
}

function tells({ caseExposed, controls, controlsExposed }: MatchedSet): boolean {
  const exposed = controlsExposed + (caseExposed ? 1 : 0)
  return exposed > 0 && exposed < controls + 1
}

function alike(sets: readonly MatchedSet[]): AlikeSets[] {
  const groups = new Map<string, AlikeSets>()
  for (const { caseExposed, controls, controlsExposed } of sets) {
    const exposed = controlsExposed + (caseExposed ? 1 : 0)
    const key = `${exposed} of ${controls}`
    const before = groups.get(key) ?? { sets: 0, exposed, unexposed: controls + 1 - exposed }
    groups.set(key, { ...before, sets: before.sets + 1 })
  }
  return [...groups.values()].toSorted((a, b) => a.exposed / a.unexposed - b.exposed / b.unexposed)
}

function shiftingCount(
  groups: readonly AlikeSets[],
  { observed, all }: { observed: number; all: number },
): ShiftingCount {
  const mean = Math.min(all - 0.5, Math.max(0.5, observed))
  const expected = (log: number) => groups.reduce((sum, each) => sum + each.sets * exposedCaseChance(each, log), 0)
  const log = risingRoot({ rising: (at) => expected(at) - mean, start: 0, step: 1 })
  const variance = groups.reduce((sum, each) => {
    const chance = exposedCaseChance(each, log)
    return sum + each.sets * chance * (1 - chance)
  }, 0)
  return {
    at: exposedCaseSets(groups, mean),
    observed,
    atLeast: observed === 0,
    atMost: observed === all,
    near: { log, step: 1 / Math.sqrt(variance) },
  }
}

function pointEstimate(groups: readonly AlikeSets[], { near, atLeast, atMost }: ShiftingCount) {
  if (!atLeast && !atMost) return { oddsRatio: Math.exp(near.log), estimate: 'conditional maximum likelihood' as const }
  /** The chance that every telling case is exposed, or unexposed. */
  const chanceOfExtreme = (log: number) =>
    groups.reduce((product, each) => {
      const chance = exposedCaseChance(each, log)
      return product * (atMost ? chance : 1 - chance) ** each.sets
    }, 1)
  const rising = (log: number) => (atMost ? 1 : -1) * (chanceOfExtreme(log) - 0.5)
  return {
    oddsRatio: Math.exp(risingRoot({ rising, start: near.log, step: near.step })),
    estimate: 'median-unbiased' as const,
  }
}

function pValues(groups: readonly AlikeSets[], observed: number): { p: number; midP: number } {
  const mean = groups.reduce((sum, each) => sum + each.sets * exposedCaseChance(each, 0), 0)
  const none = exposedCaseSets(groups, mean)(0)
  const twice = (share: number) => {
    const { above, below } = tailsOf(none, { observed, share })
    return Math.min(1, 2 * Math.min(above, below))
  }
  return { p: twice(1), midP: twice(1 / 2) }
}

const MOST_SETS = 20_000
const MOST_CONTROLS = 1000

const input = z
  .strictObject({
    sets: field(
      z
        .array(
          z.strictObject({
            caseExposed: field(z.boolean(), { what: 'whether the case was exposed' }),
            controls: field(z.int().min(1).max(MOST_CONTROLS), { what: 'how many controls the case has' }),
            controlsExposed: field(measure.count(), { what: 'how many of them were exposed' }),
          }),
        )
        .min(1)
        .max(MOST_SETS),
      { what: 'one row for each case with its controls' },
    ),
    level: levelField(),
  })
  .superRefine(({ sets }, context) => {
    for (const [row, { controls, controlsExposed }] of sets.entries())
      if (controlsExposed > controls)
        context.addIssue(
          refuse(['sets', row, 'controlsExposed'], {
            expected: `at most the controls, ${controls}`,
            received: String(controlsExposed),
          }),
        )
    if (sets.length > 0 && !sets.some((each) => tells(each) || each.controlsExposed > each.controls))
      context.addIssue(
        refuse(['sets'], { expected: 'a set in which some are exposed and some are not', received: 'none' }),
      )
  })

const limits = (what: string) =>
  field(z.object({ lower: z.number().optional(), upper: z.number().optional() }), {
    what: `${what}; a limit without a finite value is left out`,
  })

const pair = (caseExposed: boolean, controlsExposed: number) => ({ caseExposed, controls: 2, controlsExposed })
const EXAMPLE = {
  sets: [pair(true, 0), pair(true, 0), pair(true, 1), pair(false, 1), pair(true, 0), pair(false, 0)],
  level: 0.95,
}

export const matchedSetsCalculation = defineCalculation({
  id: 'matched-sets',
  title: 'Exposure in matched sets',
  purpose: 'How strongly an exposure goes with illness when each case was matched to its own controls.',
  formula: {
    text: 'chance of an exposed case in a set = m·ψ / (m·ψ + M + 1 − m)',
    symbols: { ψ: 'oddsRatio', m: 'exposed people of the set, the case among them', M: 'sets[].controls' },
  },
  input,
  output: z.object({
    oddsRatio: field(z.number(), { what: 'estimate of the odds ratio' }),
    estimate: field(z.enum(['conditional maximum likelihood', 'median-unbiased']), {
      what: 'which estimate: median-unbiased where the likelihood has no top',
    }),
    interval: limits('exact central limits'),
    midPInterval: limits('central mid-p limits'),
    p: field(z.number(), { what: 'p value, twice the smaller exact tail' }),
    midP: field(z.number(), { what: 'p value, twice the smaller one-sided mid-p' }),
    informativeSets: field(z.number(), { what: 'sets with exposed and unexposed people; the others tell nothing' }),
    level: field(z.number(), { what: 'confidence level of the intervals' }),
  }),
  sources: sourcesOf('breslow-day-1980', 'hirji-1989', 'lancaster-mid-p'),
  cautions: [
    'What people were matched on cannot be studied any more. An association is not a source.',
    'Controls picked after the exposure was suspected tend to show it.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      oddsRatio: 6.60555127546399,
      estimate: 'conditional maximum likelihood',
      interval: { lower: 0.6149145055426165, upper: 334.77721508829427 },
      midPInterval: { lower: 0.7884992276507319, upper: 168.05874794450565 },
      p: 0.15637860082304517,
      midP: 0.0864197530864197,
      informativeSets: 5,
      level: 0.95,
    },
  },
  run: matchedSets,
})
