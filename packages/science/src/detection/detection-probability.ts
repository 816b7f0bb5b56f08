import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'

export interface DetectionInput {
  outlets: number
  colonised: number
  sampled: number
  sensitivity: number
}

/**
 * The probability, 0 to 1, that at least one sample is positive when some of a building's outlets are colonised and
 * some are sampled at random. Wanted before a plan is adopted: what can it miss?
 *
 * 1 − Σ h(k)·(1−s)ᵏ, h the hypergeometric chance that k of the sampled outlets are colonised, s the sensitivity.
 * Summed from ratios of neighbouring terms around the largest, so it keeps its digits at any size.
 *
 * Special cases: 0 when nothing is colonised, sampled or sensitive.
 *
 * @param input outlets (whole, at least 1), colonised and sampled (0 to outlets), sensitivity of one sample (0 to 1)
 * @throws RangeError when colonised or sampled exceeds outlets
 * @source cameron-baldock-1998
 * @example
 * detectionProbability({ outlets: 12, colonised: 1, sampled: 6, sensitivity: 0.8 }) // => 0.4
 */
export function detectionProbability({ outlets, colonised, sampled, sensitivity }: DetectionInput): number {
  if (colonised > outlets || sampled > outlets) {
    throw new RangeError(
      `Cannot sample because colonised and sampled must be at most the outlets: got ${colonised}, ${sampled} of ${outlets}`,
    )
  }
  const clean = outlets - colonised
  const least = Math.max(0, sampled - clean)
  const most = Math.min(sampled, colonised)
  const mode = Math.min(most, Math.max(least, Math.floor(((sampled + 1) * (colonised + 1)) / (outlets + 2))))
  const up = (k: number) => ((colonised - k) * (sampled - k)) / ((k + 1) * (clean - sampled + k + 1))
  const sums = { all: 1, detecting: noticed(mode, sensitivity) }
  for (let k = mode, weight = 1; k < most && weight > 0; k++) {
    weight *= up(k)
    sums.all += weight
    sums.detecting += weight * noticed(k + 1, sensitivity)
  }
  for (let k = mode, weight = 1; k > least && weight > 0; k--) {
    weight /= up(k - 1)
    sums.all += weight
    sums.detecting += weight * noticed(k - 1, sensitivity)
  }
  return sums.detecting / sums.all
}

/** The chance that at least one of k colonised samples is found positive. */
function noticed(k: number, sensitivity: number): number {
  return k === 0 ? 0 : -Math.expm1(k * Math.log1p(-sensitivity))
}

const input = z
  .strictObject({
    outlets: field(measure.countFromOne(), { what: 'outlets in the building or part' }),
    colonised: field(measure.count(), { what: 'how many of them are colonised, supposed' }),
    sampled: field(measure.count(), { what: 'how many of them are sampled, at random' }),
    sensitivity: field(measure.fraction().default(1), {
      what: 'chance that a sample of a colonised outlet is found positive, 0 to 1; 1 supposes that none is missed',
    }),
  })
  .superRefine(({ outlets, colonised, sampled }, context) => {
    if (colonised > outlets) context.addIssue(refuse(['colonised'], `at most the outlets, ${outlets}`))
    if (sampled > outlets) context.addIssue(refuse(['sampled'], `at most the outlets, ${outlets}`))
  })

export const detectionProbabilityCalculation = defineCalculation({
  id: 'detection-probability',
  title: 'Chance that a plan detects',
  purpose: 'How likely at least one positive is, if a given number of outlets were colonised.',
  formula: {
    text: 'P = 1 − Σₖ h(k) · (1 − s)ᵏ, h hypergeometric',
    symbols: {
      P: 'probability',
      k: 'colonised outlets among the sampled',
      s: 'sensitivity',
      h: 'from outlets, colonised, sampled',
    },
  },
  input,
  output: z.object({ probability: field(z.number(), { what: 'chance of at least one positive, 0 to 1' }) }),
  sources: sourcesOf('cameron-baldock-1998', 'cannon-roe-1982'),
  cautions: [
    'Supposes outlets drawn at random and no false positives. Colonised outlets cluster by riser; a plan that follows the pipes can do better or worse.',
  ],
  example: {
    input: { outlets: 12, colonised: 1, sampled: 6, sensitivity: 0.8 },
    output: { probability: 0.4 },
  },
  run: (given) => ({ probability: detectionProbability(given) }),
})
