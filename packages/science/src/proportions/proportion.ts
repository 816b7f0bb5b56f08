import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, intervalField, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { betaQuantile } from '../distributions/beta.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import type { Interval } from '../distributions/poisson-limits.ts'

export interface ProportionInput {
  positive: number
  total: number
  method: 'wilson' | 'exact' | 'jeffreys'
  level: number
}

export interface Proportion {
  estimate: number
  interval: Interval
  level: number
}

/**
 * A positivity with its interval, as fractions 0 to 1.
 * Wanted because 3 of 10 positive is anywhere from 7 to 65 per cent, and a bare "30 %" hides that.
 *
 * wilson: the score interval; exact: beta quantiles that always keep the level (Clopper and Pearson);
 * jeffreys: equal tails of a beta(x + ½, n − x + ½).
 *
 * Special cases: the lower limit is 0 at none positive, the upper 1 at all (every method).
 *
 * @param input positive (0 to total), total (at least 1), method, level (0 to 1)
 * @throws RangeError when positive isn't within 0 to total, or total is below 1
 * @source wilson-1927
 * @source clopper-pearson-1934
 * @source brown-cai-dasgupta-2001
 * @example
 * proportion({ positive: 3, total: 10, method: 'exact', level: 0.95 }).interval.lower // => 0.0667395111777345
 */
export function proportion(input: ProportionInput): Proportion {
  const { positive, total, level } = input
  if (!(total >= 1 && positive >= 0 && positive <= total)) {
    throw new RangeError(
      `Cannot take a proportion because positive must lie within 0 to total: got ${positive} of ${total}`,
    )
  }
  const limits = LIMITS[input.method](input)
  return {
    estimate: positive / total,
    interval: { lower: positive === 0 ? 0 : limits.lower, upper: positive === total ? 1 : limits.upper },
    level,
  }
}

const LIMITS = {
  wilson: ({ positive, total, level }: ProportionInput) => wilsonInterval({ estimate: positive / total, total, level }),
  exact: ({ positive, total, level }: ProportionInput) => ({
    lower: positive === 0 ? 0 : betaQuantile((1 - level) / 2, { a: positive, b: total - positive + 1 }),
    upper: positive === total ? 1 : 1 - betaQuantile((1 - level) / 2, { a: total - positive, b: positive + 1 }),
  }),
  jeffreys: ({ positive, total, level }: ProportionInput) => ({
    lower: betaQuantile((1 - level) / 2, { a: positive + 0.5, b: total - positive + 0.5 }),
    upper: 1 - betaQuantile((1 - level) / 2, { a: total - positive + 0.5, b: positive + 0.5 }),
  }),
}

export interface WilsonInput {
  estimate: number
  total: number
  level: number
}

/**
 * The score interval of a proportion that need not come from whole counts.
 *
 * @param input estimate (0 to 1), total (above 0), level
 * @source wilson-1927
 * @example
 * wilsonInterval({ estimate: 0, total: 20, level: 0.95 }).lower // => 0
 */
export function wilsonInterval({ estimate, total, level }: WilsonInput): Interval {
  const z = twoSidedNormalQuantile(level)
  const shrink = 1 + (z * z) / total
  const middle = estimate + (z * z) / (2 * total)
  const half = z * Math.sqrt((estimate * (1 - estimate)) / total + (z * z) / (4 * total * total))
  return { lower: Math.max(0, (middle - half) / shrink), upper: Math.min(1, (middle + half) / shrink) }
}

const input = z
  .strictObject({
    positive: field(measure.count(), { what: 'how many were positive' }),
    total: field(measure.countFromOne(), { what: 'how many were examined' }),
    method: field(z.enum(['wilson', 'exact', 'jeffreys']).default('wilson'), {
      what: 'how the limits are made: wilson near the level on average, exact never below it, jeffreys equal-tailed credible limits',
    }),
    level: levelField(),
  })
  .superRefine(({ positive, total }, context) => {
    if (positive > total) context.addIssue(refuse(['positive'], `at most the total, ${total}`))
  })

export const proportionCalculation = defineCalculation({
  id: 'proportion',
  title: 'Positivity with its interval',
  purpose: 'What a count of positives says about the true share, with how unsure it is.',
  formula: {
    text: 'wilson: (p + z²/2n ± z·√(p(1−p)/n + z²/4n²)) / (1 + z²/n); exact: beta quantiles of (x, n−x+1) and (x+1, n−x); jeffreys: of (x+½, n−x+½)',
    symbols: { x: 'positive', n: 'total', p: 'estimate = x / n', z: 'normal quantile of the level' },
  },
  input,
  output: z.object({
    estimate: field(z.number(), { what: 'share positive, 0 to 1' }),
    interval: intervalField({ what: 'limits of the share, 0 to 1' }),
    level: field(z.number(), { what: 'confidence level of the interval' }),
  }),
  sources: sourcesOf('wilson-1927', 'clopper-pearson-1934', 'brown-cai-dasgupta-2001'),
  cautions: [
    'The interval treats points as a random draw; points chosen because they looked suspect say less about the rest.',
  ],
  example: {
    input: { positive: 3, total: 10, method: 'exact', level: 0.95 },
    output: { estimate: 0.3, interval: { lower: 0.0667395111777345, upper: 0.6524528500599972 }, level: 0.95 },
  },
  run: proportion,
})
