import usual from '@rillmark/reference/chlorine/products.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'

export interface ShockDoseInput {
  waterVolumeL: number
  targetMgPerL: number
  demandMgPerL: number
  product: {
    kind: 'sodium-hypochlorite' | 'calcium-hypochlorite'
    availableChlorinePercent: number
    densityKgPerL?: number | undefined
  }
}

export interface ShockDose {
  chlorineKilograms: number
  litres?: number | undefined
  kilograms?: number | undefined
}

const MG_PER_KG = 1e6
const PERCENT = 100

/**
 * How much product brings a volume of water to a chlorine concentration: litres of a solution, kilograms of a solid.
 * Wanted because too little doesn't disinfect and too much harms people, pipes and the drain.
 *
 * chlorine = V · (C + D) / 10⁶; product = chlorine / (p / 100), divided by the density for a solution.
 *
 * Special cases: a target and demand of 0 need none.
 *
 * @param input volume (L), target and demand (mg/L as Cl2), product with available chlorine per cent BY WEIGHT
 * @throws RangeError when a solution has no density
 * @source c1v1
 * @example
 * shockDose({ waterVolumeL: 1000, targetMgPerL: 50, demandMgPerL: 0, product: { kind: 'calcium-hypochlorite', availableChlorinePercent: 65 } }).kilograms // => 0.07692307692307693
 */
export function shockDose({ waterVolumeL, targetMgPerL, demandMgPerL, product }: ShockDoseInput): ShockDose {
  const chlorineKilograms = (waterVolumeL * (targetMgPerL + demandMgPerL)) / MG_PER_KG
  const kilograms = chlorineKilograms / (product.availableChlorinePercent / PERCENT)
  if (product.kind === 'calcium-hypochlorite') return { chlorineKilograms, kilograms }
  if (product.densityKgPerL === undefined) {
    throw new RangeError('Cannot dose a solution because its density is needed: got none')
  }
  return { chlorineKilograms, litres: kilograms / product.densityKgPerL }
}

/** No solution is lighter or heavier: a density written in g/L or oz/gal would change the dose many times over. */
const [LIGHTEST_KG_PER_L, HEAVIEST_KG_PER_L] = [0.5, 2.5]

const input = z.strictObject({
  waterVolumeL: field(measure.positive(), { what: 'water to be treated', unit: 'L' }),
  targetMgPerL: field(measure.amount(), { what: 'concentration to reach, as Cl2', unit: 'mg/L' }),
  demandMgPerL: field(measure.amount().default(0), { what: 'chlorine the water and pipes use up', unit: 'mg/L' }),
  product: field(
    z
      .strictObject({
        kind: field(z.enum(['sodium-hypochlorite', 'calcium-hypochlorite']), {
          what: 'the product: a solution or a solid',
        }),
        availableChlorinePercent: field(measure.positive().max(PERCENT), {
          what: 'available chlorine by weight, from the label',
          unit: '%',
        }),
        densityKgPerL: field(z.number().min(LIGHTEST_KG_PER_L).max(HEAVIEST_KG_PER_L).optional(), {
          what: 'density of a solution, from the label',
          unit: 'kg/L',
        }),
      })
      .superRefine((product, context) => {
        if (product.kind === 'sodium-hypochlorite' && product.densityKgPerL === undefined) {
          context.addIssue(refuse(['densityKgPerL'], 'the density of the solution (kg/L), from its label'))
        }
      }),
    { what: 'the product' },
  ),
})

const { weakestSolution, strongestSolution, weakestSolid, strongestSolid } = usual.figures
const USUAL_PERCENT = {
  'sodium-hypochlorite': { what: 'a solution', from: weakestSolution.value, to: strongestSolution.value },
  'calcium-hypochlorite': { what: 'a solid', from: weakestSolid.value, to: strongestSolid.value },
}

/** A share written for a per cent changes the dose a hundredfold. */
function oddStrength({ kind, availableChlorinePercent }: ShockDoseInput['product']): string[] {
  const { what, from, to } = USUAL_PERCENT[kind]
  if (availableChlorinePercent >= from && availableChlorinePercent <= to) return []
  return [
    `${availableChlorinePercent} % available chlorine is unusual: ${what} commonly has ${from} to ${to} % by weight. Read the label again before anything is dosed: a slip here changes the dose many times over.`,
  ]
}

export const shockDoseCalculation = defineCalculation({
  id: 'shock-dose',
  title: 'Product for a shock disinfection',
  purpose: 'How much hypochlorite brings a volume of water to the concentration wanted.',
  formula: {
    text: 'product = V · (C + D) / (10⁶ · p / 100) [ / ρ for a solution ]',
    symbols: {
      V: 'waterVolumeL',
      C: 'targetMgPerL',
      D: 'demandMgPerL',
      p: 'product.availableChlorinePercent',
      ρ: 'product.densityKgPerL',
    },
  },
  input,
  output: z.object({
    chlorineKilograms: field(z.number(), { what: 'chlorine added, as Cl2', unit: 'kg' }),
    litres: field(z.number().optional(), { what: 'product, of a solution', unit: 'L' }),
    kilograms: field(z.number().optional(), { what: 'product, of a solid', unit: 'kg' }),
  }),
  sources: sourcesOf('c1v1', 'maine-disinfection-equations', 'common-practice'),
  cautionsFor: ({ input: { product } }) => oddStrength(product),
  cautions: [
    'The product label and the local code come first; leave the work to people licensed for it. Nobody may drink from, wash at or shower in the system meanwhile.',
    'Never let hypochlorite meet an acid or another cleaner: it gives off poisonous gas. Keep it from the drain until the residual is gone: see dechlorination, and the local code.',
    'Per cent here is by weight. "Trade per cent" is grams in 100 mL: divide it by the density first, or the dose comes out up to a fifth too small. Solutions weaken with age: measure what was reached.',
  ],
  example: {
    input: {
      waterVolumeL: 1000,
      targetMgPerL: 50,
      demandMgPerL: 0,
      product: { kind: 'sodium-hypochlorite', availableChlorinePercent: 10, densityKgPerL: 1.25 },
    },
    output: { chlorineKilograms: 0.05, litres: 0.4 },
  },
  run: shockDose,
})
