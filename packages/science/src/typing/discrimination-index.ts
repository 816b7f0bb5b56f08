import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, intervalField, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import type { Interval } from '../distributions/poisson-limits.ts'

export interface DiscriminationIndex {
  index: number
  interval: Interval
  /** Two standard errors either side, as the method was published. */
  twoErrorsInterval: Interval
  isolates: number
  types: number
  level: number
}

/**
 * How likely two isolates picked at random are of different types, 0 to 1 (Simpson's index as Hunter and Gaston use it).
 * Wanted to judge what a match is worth: where most isolates share one type, a match says little.
 *
 * D = 1 − Σ n(n − 1) / (N(N − 1)); s² = 4/N · (Σ p³ − (Σ p²)²), p = n/N; limits D ± z·s, cut at 0 and 1.
 *
 * Special cases: 1 where every isolate is a type of its own, 0 where all are one; types without isolates are passed over.
 *
 * @param input isolates of each type, at least two in all; level
 * @throws RangeError when fewer than two isolates
 * @source hunter-gaston-1988
 * @source grundmann-2001
 * @example
 * discriminationIndex({ counts: [40, 30, 20, 10], level: 0.95 }).index // => 0.7070707070707071
 */
export function discriminationIndex({ counts, level }: { counts: number[]; level: number }): DiscriminationIndex {
  const sum = (of: (count: number) => number) => counts.reduce((total, count) => total + of(count), 0)
  const isolates = sum((n) => n)
  if (isolates < 2) throw new RangeError(`Cannot compare isolates because two are needed: got ${isolates}`)
  const index = 1 - sum((n) => (n / isolates) * ((n - 1) / (isolates - 1)))
  const squares = sum((n) => (n / isolates) ** 2)
  const variance = (4 / isolates) * (sum((n) => (n / isolates) ** 3) - squares ** 2)
  const error = Math.sqrt(Math.max(0, variance))
  const within = (errors: number) => ({
    lower: Math.max(0, index - errors * error),
    upper: Math.min(1, index + errors * error),
  })
  return {
    index: Math.min(1, Math.max(0, index)),
    interval: within(twoSidedNormalQuantile(level)),
    twoErrorsInterval: within(2),
    isolates,
    types: counts.filter((count) => count > 0).length,
    level,
  }
}

const MOST_TYPES = 100_000
const EXAMPLE = { counts: [5, 3, 2], level: 0.95 }

export const discriminationIndexCalculation = defineCalculation({
  id: 'discrimination-index',
  title: 'What a typing method tells apart',
  purpose:
    'The chance that two isolates picked at random differ in type: what a match between patient and water is worth.',
  formula: {
    text: 'D = 1 − Σ n·(n − 1) / (N·(N − 1)); s² = 4/N · (Σ p³ − (Σ p²)²)',
    symbols: { D: 'index', n: 'counts[]', N: 'isolates', p: 'n / N', s: 'standard error of the interval' },
  },
  input: z
    .strictObject({
      counts: field(z.array(measure.count()).min(1).max(MOST_TYPES), { what: 'isolates of each type' }),
      level: levelField(),
    })
    .superRefine(({ counts }, context) => {
      const isolates = counts.reduce((sum, count) => sum + count, 0)
      if (counts.length > 0 && isolates < 2)
        context.addIssue(refuse(['counts'], { expected: 'two isolates or more in all', received: String(isolates) }))
    }),
  output: z.object({
    index: field(z.number(), { what: 'chance that two isolates differ in type, 0 to 1' }),
    interval: intervalField({ what: 'limits of the index at the level, cut at 0 and 1' }),
    twoErrorsInterval: intervalField({ what: 'index ± 2 standard errors, as the method was published' }),
    isolates: field(z.number(), { what: 'isolates in all' }),
    types: field(z.number(), { what: 'types with isolates' }),
    level: field(z.number(), { what: 'confidence level of the interval' }),
  }),
  sources: sourcesOf('hunter-gaston-1988', 'grundmann-2001'),
  cautions: [
    'It describes the isolates given. Isolates of one building or one outbreak make any method look poor; use unrelated ones.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      index: 0.6888888888888889,
      interval: { lower: 0.5340641394425185, upper: 0.8437136383352593 },
      twoErrorsInterval: { lower: 0.5309015476238369, upper: 0.8468762301539409 },
      isolates: 10,
      types: 3,
      level: 0.95,
    },
  },
  run: discriminationIndex,
})
