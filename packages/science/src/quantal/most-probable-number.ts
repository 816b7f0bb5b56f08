import usual from '@rillmark/reference/quantal/rarity.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { binomialLogChance } from '../distributions/binomial.ts'
import { newtonRoot } from '../distributions/newton-root.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import { risingRoot } from '../distributions/rising-root.ts'
import type { OpenInterval } from '../tables/open-interval.ts'
import { type Wells, wellsInformation, wellsLogLikelihood, wellsScore, wellsSlope } from './wells.ts'

export interface MostProbableNumberInput {
  wells: Wells[]
  information: 'observed' | 'expected'
  level: number
}

export interface MostProbableNumber {
  mpnPerMl?: number | undefined
  interval: { profileLikelihood: OpenInterval; cox: OpenInterval }
  standardErrorLog10?: { observed: number; expected: number } | undefined
  rarityIndex: number
  outcome: 'some positive' | 'all negative' | 'all positive'
  basis: string
  level: number
}

/**
 * The most probable number of organisms per mL from wells or tubes that grew or didn't, of any volumes.
 * Wanted because many laboratories report Legionella from wells, and a design that isn't in the printed table still has an answer.
 *
 * λ solves Σ x·v / (e^(vλ) − 1) = Σ (n − x)·v, by Newton's step in ln λ kept inside a bracket, from the middle of Σx/Σnv … Σx/Σ(n−x)v.
 * profileLikelihood: where twice the fall of the log-likelihood reaches the chi-squared quantile. cox: λ·e^(±z·s), s the
 * standard error of ln λ from the information named. rarityIndex: likelihood of the outcome over that of the likeliest at λ.
 *
 * Special cases: all negative gives 0 with lower limits 0; all positive has no finite value, so it and the upper limits are left out.
 * There profileLikelihood is the exact one-sided limit at the level, cox the exact one at (1 + level)/2: both are published practice.
 *
 * @param input wells (volume mL, inoculated, positive), information, level
 * @throws RangeError when more wells are positive than inoculated, or none is inoculated
 * @source halvorson-ziegler-1933
 * @source ridout-1994
 * @source jarvis-2010
 * @source blodgett-rarity
 * @example
 * mostProbableNumber({ wells: [{ volumeMl: 10, inoculated: 10, positive: 5 }], information: 'observed', level: 0.95 }).mpnPerMl // => 0.0693147180559945
 */
export function mostProbableNumber(input: MostProbableNumberInput): MostProbableNumber {
  const { level } = input
  const wells = merged(input.wells)
  const total = (of: (each: Wells) => number) => wells.reduce((sum, each) => sum + of(each), 0)
  const negativeMl = total(({ volumeMl, inoculated, positive }) => volumeMl * (inoculated - positive))
  if (total(({ positive }) => positive) === 0) return allNegative(negativeMl, level)
  if (negativeMl === 0) return allPositive(wells, level)
  const mpnPerMl = solved(wells)
  const errorOf = (kind: 'observed' | 'expected') =>
    1 / (mpnPerMl * Math.sqrt(wellsInformation(wells, { perMl: mpnPerMl, kind })))
  const error = { observed: errorOf('observed'), expected: errorOf('expected') }
  const quantile = twoSidedNormalQuantile(level)
  const half = quantile * error[input.information]
  return {
    mpnPerMl,
    interval: {
      profileLikelihood: profileLimits(wells, { mpnPerMl, quantile, step: error.observed }),
      cox: { lower: mpnPerMl * Math.exp(-half), upper: mpnPerMl * Math.exp(half) },
    },
    standardErrorLog10: { observed: error.observed / Math.LN10, expected: error.expected / Math.LN10 },
    rarityIndex: rarity(wells, mpnPerMl),
    outcome: 'some positive',
    basis: `Likelihood ratio; Cox limits on the logarithm with the ${input.information} information.`,
    level,
  }
}

/** Wells of the same volume together; the order of what a user gave doesn't matter. */
function merged(wells: readonly Wells[]): Wells[] {
  const byVolume = new Map<number, Wells>()
  for (const { volumeMl, inoculated, positive } of wells) {
    if (!(positive >= 0 && positive <= inoculated))
      throw new RangeError(
        `Cannot count wells because positive must lie within 0 to inoculated: got ${positive} of ${inoculated}`,
      )
    const before = byVolume.get(volumeMl) ?? { volumeMl, inoculated: 0, positive: 0 }
    byVolume.set(volumeMl, {
      volumeMl,
      inoculated: before.inoculated + inoculated,
      positive: before.positive + positive,
    })
  }
  const counted = [...byVolume.values()].filter(({ inoculated }) => inoculated > 0)
  if (counted.length === 0) throw new RangeError('Cannot count wells because at least one must be inoculated: got 0')
  return counted.toSorted((a, b) => b.volumeMl - a.volumeMl)
}

function solved(wells: readonly Wells[]): number {
  let [positive, all, negative] = [0, 0, 0]
  for (const each of wells) {
    positive += each.positive
    all += each.volumeMl * each.inoculated
    negative += each.volumeMl * (each.inoculated - each.positive)
  }
  const rising = (log: number) => {
    const perMl = Math.exp(log)
    const { slope, information } = wellsScore(wells, perMl)
    return { value: -perMl * slope, slope: perMl * perMl * information - perMl * slope }
  }
  const [least, most] = [Math.log(positive / all), Math.log(positive / negative)]
  return Math.exp(newtonRoot({ rising, start: (least + most) / 2, step: LITTLE_BEND }))
}

/** Of ln λ: over so much the slope bends little, whatever the wells. */
const LITTLE_BEND = 0.1

interface Profile {
  mpnPerMl: number
  /** The normal quantile of the level. */
  quantile: number
  /** Standard error of ln λ. */
  step: number
}

function profileLimits(wells: readonly Wells[], { mpnPerMl, quantile, step }: Profile): OpenInterval {
  const top = wellsLogLikelihood(wells, mpnPerMl)
  const fall = quantile ** 2 / 2
  const away = (sign: 1 | -1) => {
    const rising = (t: number) => {
      if (t <= 0) return { value: t - fall, slope: 1 }
      const perMl = mpnPerMl * Math.exp(sign * t)
      const value = top - wellsLogLikelihood(wells, perMl) - fall
      return { value, slope: -sign * perMl * wellsSlope(wells, perMl) }
    }
    return mpnPerMl * Math.exp(sign * newtonRoot({ rising, start: quantile * step, step }))
  }
  return { lower: away(-1), upper: away(1) }
}

function rarity(wells: readonly Wells[], perMl: number): number {
  let log = 0
  for (const { volumeMl, inoculated: trials, positive } of wells) {
    const success = -Math.expm1(-volumeMl * perMl)
    const trial = { trials, success, logFailure: -volumeMl * perMl }
    const likeliest = Math.min(trials, Math.floor((trials + 1) * success))
    if (positive !== likeliest) log += binomialLogChance(positive, trial) - binomialLogChance(likeliest, trial)
  }
  return Math.min(1, Math.exp(log))
}

const AT_THE_EXTREME =
  'Exact one-sided limit: at the level under profileLikelihood, at (1 + level)/2 under cox; both are published practice.'

function allNegative(volumeMl: number, level: number): MostProbableNumber {
  const upper = (outside: number) => ({ lower: 0, upper: -Math.log(outside) / volumeMl })
  return {
    mpnPerMl: 0,
    interval: { profileLikelihood: upper(1 - level), cox: upper((1 - level) / 2) },
    rarityIndex: 1,
    outcome: 'all negative',
    basis: AT_THE_EXTREME,
    level,
  }
}

function allPositive(wells: readonly Wells[], level: number): MostProbableNumber {
  const smallest = wells.at(-1)?.volumeMl ?? 1
  const lower = (outside: number) => ({
    lower: Math.exp(
      risingRoot({
        rising: (log) => wellsLogLikelihood(wells, Math.exp(log)) - Math.log(outside),
        start: -Math.log(smallest),
        step: 1,
      }),
    ),
  })
  return {
    interval: { profileLikelihood: lower(1 - level), cox: lower((1 - level) / 2) },
    rarityIndex: 1,
    outcome: 'all positive',
    basis: AT_THE_EXTREME,
    level,
  }
}

const { oddUnder, veryOddUnder } = usual.figures
const SHOWN_DIGITS = 2

function rareOutcome({ rarityIndex }: MostProbableNumber): string[] {
  if (rarityIndex >= oddUnder.value) return []
  const very = rarityIndex < veryOddUnder.value
  const index = rarityIndex === 0 ? 'next to 0' : String(Number(rarityIndex.toPrecision(SHOWN_DIGITS)))
  return [
    `The outcome is ${very ? 'very odd' : 'odd'}: its rarity index is ${index}, below ${very ? veryOddUnder.value : oddUnder.value}. ${very ? 'Do not use the number until the wells are explained' : 'Look at the wells again before you use the number'}: an inhibitor, a mix-up of dilutions or a misread well.`,
  ]
}

const MOST_ROWS = 10_000
const limits = (what: string) =>
  field(z.object({ lower: z.number().optional(), upper: z.number().optional() }), {
    what: `${what}; a limit without a finite value is left out`,
    unit: 'organisms/mL',
  })

const input = z
  .strictObject({
    wells: field(
      z
        .array(
          z.strictObject({
            volumeMl: field(measure.positive(), { what: 'volume of sample in each', unit: 'mL' }),
            inoculated: field(measure.count(), { what: 'how many wells or tubes of this volume' }),
            positive: field(measure.count(), { what: 'how many of them were positive' }),
          }),
        )
        .min(1)
        .max(MOST_ROWS),
      { what: 'wells or tubes, one row a volume' },
    ),
    information: field(z.enum(['observed', 'expected']).default('observed'), {
      what: 'which information the Cox limits rest on; published sheets use either',
    }),
    level: levelField(),
  })
  .superRefine(({ wells }, context) => {
    for (const [row, { inoculated, positive }] of wells.entries())
      if (positive > inoculated)
        context.addIssue(
          refuse(['wells', row, 'positive'], {
            expected: `at most the inoculated, ${inoculated}`,
            received: String(positive),
          }),
        )
    if (wells.length > 0 && wells.every(({ inoculated }) => inoculated === 0))
      context.addIssue(refuse(['wells'], { expected: 'at least one well inoculated', received: '0 in all' }))
  })

const EXAMPLE = {
  wells: [
    { volumeMl: 0.1, inoculated: 10, positive: 5 },
    { volumeMl: 0.01, inoculated: 10, positive: 3 },
    { volumeMl: 0.001, inoculated: 10, positive: 0 },
  ],
  information: 'observed' as const,
  level: 0.95,
}

export const mostProbableNumberCalculation = defineCalculation({
  id: 'most-probable-number',
  title: 'Most probable number',
  purpose:
    'Organisms per mL from wells or tubes that grew or did not, for any design, with how sure that is and whether the outcome is odd.',
  formula: {
    text: 'Σ x·v / (e^(v·λ) − 1) = Σ (n − x)·v; Cox limits λ·e^(±z·s)',
    symbols: {
      λ: 'mpnPerMl',
      v: 'wells[].volumeMl',
      n: 'wells[].inoculated',
      x: 'wells[].positive',
      s: 'standard error of ln λ',
      z: 'normal quantile of the level',
    },
  },
  input,
  output: z.object({
    mpnPerMl: field(z.number().optional(), {
      what: 'most probable number; left out where every well was positive',
      unit: 'organisms/mL',
    }),
    interval: field(
      z.object({ profileLikelihood: limits('likelihood-ratio limits'), cox: limits('limits on the logarithm') }),
      {
        what: 'two intervals of the same level',
        unit: 'organisms/mL',
      },
    ),
    standardErrorLog10: field(
      z
        .object({
          observed: field(z.number(), { what: 'from the observed information' }),
          expected: field(z.number(), { what: 'from the expected information' }),
        })
        .optional(),
      { what: 'standard error of the decimal logarithm; left out where all or none were positive' },
    ),
    rarityIndex: field(z.number(), {
      what: `likelihood of the outcome over that of the likeliest outcome, 0 to 1; odd below ${oddUnder.value}, very odd below ${veryOddUnder.value}`,
    }),
    outcome: field(z.enum(['some positive', 'all negative', 'all positive']), { what: 'which convention applies' }),
    basis: field(z.string(), { what: 'how the limits were reckoned' }),
    level: field(z.number(), { what: 'confidence level of the intervals' }),
  }),
  sources: sourcesOf('halvorson-ziegler-1933', 'ridout-1994', 'jarvis-2010', 'blodgett-rarity'),
  cautionsFor: ({ result }) => rareOutcome(result),
  cautions: [
    'A proprietary tray has volumes and a table of its own: take the volumes from its instructions, never from another tray.',
    'The number takes every organism to be spread at random and to grow by itself; clumps and inhibitors make it too low.',
  ],
  example: { input: EXAMPLE, output: mostProbableNumber(EXAMPLE) },
  run: mostProbableNumber,
})
