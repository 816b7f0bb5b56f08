import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { detectionProbability } from './detection-probability.ts'

export interface OutletsToSampleInput {
  outlets?: number | undefined
  designPrevalence: number
  sensitivity: number
  confidence: number
}

/** Equal within rounding counts as reached. */
const ROUNDING = 1e-12

/**
 * The least number of outlets to sample at random so that, if at least the design share is colonised, one positive
 * turns up with the confidence wanted. Wanted when a lab slot is being negotiated.
 *
 * Finite: the smallest n whose exact detection probability reaches the confidence. Very many outlets:
 * ln(1 − confidence) / ln(1 − sensitivity · designPrevalence), rounded up.
 *
 * Special cases: the colonised number is outlets · designPrevalence rounded to the nearest whole, halves to the even
 * one, and at least 1.
 *
 * @param input outlets (whole; left out for very many), designPrevalence, sensitivity, confidence (each 0 to 1)
 * @throws RangeError when even sampling every outlet doesn't reach the confidence
 * @source cannon-roe-1982
 * @source cameron-baldock-1998
 * @example
 * outletsToSample({ outlets: 100, designPrevalence: 0.1, sensitivity: 1, confidence: 0.95 }) // => 25
 */
export function outletsToSample(input: OutletsToSampleInput): number {
  const { outlets, designPrevalence, sensitivity, confidence } = input
  const reaches = (probability: number) => probability >= confidence - ROUNDING
  if (outlets === undefined) {
    const logMissOne = Math.log1p(-sensitivity * designPrevalence)
    const near = Math.ceil(Math.log1p(-confidence) / logMissOne)
    return near > 1 && reaches(-Math.expm1((near - 1) * logMissOne)) ? near - 1 : Math.max(1, near)
  }
  const best = bestReachable({ outlets, designPrevalence, sensitivity })
  if (!reaches(best)) {
    throw new RangeError(`Cannot reach the confidence because every outlet sampled gives ${best}: got ${confidence}`)
  }
  const colonised = colonisedAtDesign({ outlets, designPrevalence })
  let below = 0
  let enough = outlets
  while (enough - below > 1) {
    const sampled = Math.floor((below + enough) / 2)
    if (reaches(detectionProbability({ outlets, colonised, sampled, sensitivity }))) enough = sampled
    else below = sampled
  }
  return enough
}

function colonisedAtDesign({ outlets, designPrevalence }: { outlets: number; designPrevalence: number }): number {
  const exact = outlets * designPrevalence
  const whole = Math.floor(exact)
  const half = exact - whole === 0.5
  return Math.max(1, half ? whole + (whole % 2) : Math.round(exact))
}

/** The detection probability with every outlet, and so every colonised one, sampled. */
function bestReachable(input: { outlets: number; designPrevalence: number; sensitivity: number }): number {
  return -Math.expm1(colonisedAtDesign(input) * Math.log1p(-input.sensitivity))
}

const input = z
  .strictObject({
    outlets: field(measure.countFromOne().optional(), {
      what: 'outlets in the building or part; leave out for very many',
    }),
    designPrevalence: field(measure.share(), { what: 'share colonised that must not be missed, 0 to 1' }),
    sensitivity: field(measure.share().default(1), {
      what: 'chance that a sample of a colonised outlet is found positive, 0 to 1; 1 supposes that none is missed',
    }),
    confidence: field(measure.level().default(0.95), { what: 'chance wanted of at least one positive, 0 to 1' }),
  })
  .superRefine(({ outlets, confidence, ...rest }, context) => {
    // shares out of range are named by themselves; nothing can be said of what they would give
    const inRange = [confidence, ...Object.values(rest)].every((share) => share >= 0 && share <= 1)
    if (outlets === undefined || !inRange) return
    const best = bestReachable({ outlets, ...rest })
    if (best >= confidence - ROUNDING) return
    const most = Math.floor(best * 1e4) / 1e4
    context.addIssue(
      refuse(['confidence'], {
        expected: `at most ${most}, reached when every outlet is sampled`,
        received: `${confidence}`,
      }),
    )
  })

export const outletsToSampleCalculation = defineCalculation({
  id: 'outlets-to-sample',
  title: 'Outlets to sample',
  purpose: 'How many outlets to sample so that colonisation of a given share is not missed.',
  formula: {
    text: 'smallest n with P(n) ≥ c; very many outlets: n = ⌈ln(1 − c) / ln(1 − s · d)⌉',
    symbols: { n: 'sample', P: 'the detection probability', c: 'confidence', s: 'sensitivity', d: 'designPrevalence' },
  },
  input,
  output: z.object({ sample: field(z.number(), { what: 'outlets to sample, at random' }) }),
  sources: sourcesOf('cannon-roe-1982', 'cameron-baldock-1998', 'hanley-lippman-hand-1983'),
  cautions: [
    'Supposes outlets drawn at random and no false positives. The obligatory points of an investigation come on top.',
    'The sensitivity of one sample is rarely known; try a lower one and see how the number moves.',
  ],
  example: {
    input: { outlets: 100, designPrevalence: 0.1, sensitivity: 1, confidence: 0.95 },
    output: { sample: 25 },
  },
  run: (given) => ({ sample: outletsToSample(given) }),
})
