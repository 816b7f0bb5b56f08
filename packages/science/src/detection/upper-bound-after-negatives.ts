import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { detectionProbability } from './detection-probability.ts'

export interface UpperBoundInput {
  outlets?: number | undefined
  sampled: number
  sensitivity: number
  level: number
}

export interface UpperBound {
  /** Left out when the number of outlets isn't known. */
  upperNumber?: number | undefined
  upperFraction: number
  level: number
}

/** Equal within rounding counts as not yet refuted. */
const ROUNDING = 1e-12

/**
 * The most outlets (number and fraction) that could still be colonised after a round without a positive.
 * Wanted because a clean round is a statement about how much could hide, never "none".
 *
 * The largest D for which all-negative still has a probability of at least 1 − level; very many outlets:
 * (1 − (1 − level)^(1/n)) / sensitivity, at most 1. One-sided.
 *
 * Special cases: nothing sampled bounds nothing (all outlets, fraction 1).
 *
 * @param input outlets (whole; left out for very many), sampled (0 to outlets), sensitivity and level (0 to 1)
 * @throws RangeError when sampled exceeds outlets
 * @source hanley-lippman-hand-1983
 * @source cameron-baldock-1998
 * @example
 * upperBoundAfterNegatives({ outlets: 90, sampled: 20, sensitivity: 1, level: 0.95 }).upperNumber // => 11
 */
export function upperBoundAfterNegatives({ outlets, sampled, sensitivity, level }: UpperBoundInput): UpperBound {
  if (outlets === undefined) {
    const perSample = sampled === 0 ? 1 : -Math.expm1(Math.log1p(-level) / sampled)
    return { upperFraction: Math.min(1, perSample / sensitivity), level }
  }
  const refuted = (colonised: number) =>
    detectionProbability({ outlets, colonised, sampled, sensitivity }) > level + ROUNDING
  let possible = 0
  let beyond = outlets + 1
  while (beyond - possible > 1) {
    const colonised = Math.floor((possible + beyond) / 2)
    if (refuted(colonised)) beyond = colonised
    else possible = colonised
  }
  return { upperNumber: possible, upperFraction: possible / outlets, level }
}

const input = z
  .strictObject({
    outlets: field(measure.countFromOne().optional(), {
      what: 'outlets in the building or part; leave out for very many',
    }),
    sampled: field(measure.count(), { what: 'outlets sampled at random, all negative' }),
    sensitivity: field(measure.share().default(1), {
      what: 'chance that a sample of a colonised outlet is found positive, 0 to 1; 1 supposes that none is missed',
    }),
    level: field(measure.level().default(0.95), { what: 'confidence of the one-sided bound, 0 to 1' }),
  })
  .superRefine(({ outlets, sampled }, context) => {
    if (outlets !== undefined && sampled > outlets) {
      context.addIssue(refuse(['sampled'], `at most the outlets, ${outlets}`))
    }
  })

export const upperBoundAfterNegativesCalculation = defineCalculation({
  id: 'upper-bound-after-negatives',
  title: 'What could still hide after negatives',
  purpose: 'How many outlets could be colonised although every sample was negative.',
  formula: {
    text: 'largest D with 1 − P(D) ≥ 1 − L; very many outlets: (1 − (1 − L)^(1/n)) / s',
    symbols: { D: 'upperNumber', P: 'the detection probability', L: 'level', n: 'sampled', s: 'sensitivity' },
  },
  input,
  output: z.object({
    upperNumber: field(z.number().optional(), { what: 'outlets that could be colonised' }),
    upperFraction: field(z.number(), { what: 'share that could be colonised, 0 to 1' }),
    level: field(z.number(), { what: 'confidence of the bound' }),
  }),
  sources: sourcesOf('hanley-lippman-hand-1983', 'cameron-baldock-1998'),
  cautions: ['A negative is a statement about a volume and a method. Supposes outlets drawn at random.'],
  example: {
    input: { outlets: 90, sampled: 20, sensitivity: 1, level: 0.95 },
    output: { upperNumber: 11, upperFraction: 11 / 90, level: 0.95 },
  },
  run: upperBoundAfterNegatives,
})
