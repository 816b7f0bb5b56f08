import stoichiometry from '@rillmark/reference/chlorine/stoichiometry.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'

export interface NeutralizerInput {
  residualMgPerL: number
  residualKind: 'free-chlorine' | 'total-chlorine'
  sampleVolumeMl: number
  solutionNormality: number
  solutionVolumeMl: number
}

export interface Neutralizer {
  capacityMgPerL: number
  covered: boolean
  requiredVolumeMl: number
  basis: string
}

const ELECTRONS = stoichiometry.figures.conservativeElectrons.value
const GRAMS_PER_EQUIVALENT =
  stoichiometry.figures.chlorineMolarMass.value / stoichiometry.figures.chlorineElectrons.value

/**
 * How much residual a dose of thiosulfate takes out of a sample (mg/L as Cl2), and the dose the residual needs (mL).
 * Wanted because disinfectant left in the bottle goes on killing on the way to the laboratory: a false negative.
 *
 * capacity = N · v · e · (M/2) · 1000 / V, with N solutionNormality, v solutionVolumeMl, V sampleVolumeMl,
 * M the molar mass of chlorine and e = 1 electron a thiosulfate, the least it can give.
 *
 * Special cases: a residual of 0 needs 0 mL and is covered.
 *
 * @param input residual (mg/L as Cl2, at least 0), sample and solution volumes (mL, above 0), normality (mol/L)
 * @source thiosulfate-one-electron
 * @source cdc-sampling-procedure
 * @example
 * neutralizer({ residualMgPerL: 4, residualKind: 'free-chlorine', sampleVolumeMl: 1000, solutionNormality: 0.1, solutionVolumeMl: 0.5 }).covered // => false
 */
export function neutralizer(input: NeutralizerInput): Neutralizer {
  const gramsPerMl = input.solutionNormality * ELECTRONS * GRAMS_PER_EQUIVALENT
  const capacityMgPerL = (gramsPerMl * input.solutionVolumeMl * 1000) / input.sampleVolumeMl
  return {
    capacityMgPerL,
    covered: input.residualMgPerL <= capacityMgPerL,
    requiredVolumeMl: (input.residualMgPerL * input.sampleVolumeMl) / (gramsPerMl * 1000),
    basis: `One electron per thiosulfate, the least it can give; ${input.residualKind === 'free-chlorine' ? 'free' : 'total'} chlorine as Cl2.`,
  }
}

export const neutralizerCalculation = defineCalculation({
  id: 'neutralizer',
  title: 'Neutralizer for a water sample',
  purpose: 'Whether the thiosulfate in a bottle covers the residual measured at the point, and how much would.',
  formula: {
    text: 'capacity = N · v · e · (M / 2) · 1000 / V',
    symbols: {
      capacity: 'capacityMgPerL',
      N: 'solutionNormality',
      v: 'solutionVolumeMl',
      V: 'sampleVolumeMl',
      M: 'molar mass of Cl2 (g/mol)',
      e: 'electrons per thiosulfate, taken as 1',
    },
  },
  input: z.strictObject({
    residualMgPerL: field(measure.amount(), { what: 'residual measured at the point, as Cl2', unit: 'mg/L' }),
    residualKind: field(z.enum(['free-chlorine', 'total-chlorine']), {
      what: 'what was measured: free chlorine in a chlorinated supply, total in a chloraminated one',
    }),
    sampleVolumeMl: field(measure.positive(), { what: 'volume of the sample', unit: 'mL' }),
    solutionNormality: field(measure.positive(), { what: 'normality of the thiosulfate solution', unit: 'mol/L' }),
    solutionVolumeMl: field(measure.amount(), { what: 'volume of solution in the bottle', unit: 'mL' }),
  }),
  output: z.object({
    capacityMgPerL: field(z.number(), { what: 'residual the dose covers, as Cl2', unit: 'mg/L' }),
    covered: field(z.boolean(), { what: 'whether the dose covers the residual' }),
    requiredVolumeMl: field(z.number(), { what: 'volume of solution that covers the residual', unit: 'mL' }),
    basis: field(z.string(), { what: 'how the capacity is reckoned' }),
  }),
  sources: sourcesOf('thiosulfate-one-electron', 'cdc-sampling-procedure', 'tidywater-weights'),
  cautions: [
    'Published "covers up to" claims for the same dose differ several times over, by reaction and by hydrate; this is the lowest.',
    'Ask the laboratory before you change a dose: it may set its own.',
  ],
  example: {
    input: {
      residualMgPerL: 2,
      residualKind: 'free-chlorine',
      sampleVolumeMl: 1000,
      solutionNormality: 0.1,
      solutionVolumeMl: 0.5,
    },
    output: {
      capacityMgPerL: 1.77265,
      covered: false,
      requiredVolumeMl: 0.5641271542605704,
      basis: 'One electron per thiosulfate, the least it can give; free chlorine as Cl2.',
    },
  },
  run: neutralizer,
})
