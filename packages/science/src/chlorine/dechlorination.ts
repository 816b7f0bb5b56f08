import table from '@rillmark/reference/chlorine/dechlorination.json' with { type: 'json' }
import stoichiometry from '@rillmark/reference/chlorine/stoichiometry.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, intervalField, measure } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import type { Interval } from '../distributions/poisson-limits.ts'

export interface DechlorinationInput {
  waterVolumeL: number
  residualMgPerL: number
  agent: string
}

export interface Dechlorination {
  kilograms: number
  stoichiometricKilograms: number
  stoichiometricRangeKilograms: Interval
  basis: string
}

const MG_PER_KG = 1e6
const CHLORINE = stoichiometry.figures.chlorineMolarMass.value

/**
 * How much of an agent takes the chlorine out of water before it is let go (kilograms): by published field dose, and
 * by the bare equation. Wanted because chlorinated water kills fish and may not be discharged.
 *
 * kilograms = V · C · dose / 10⁶; stoichiometric = V · C · (M/71) / r / 10⁶, r moles of chlorine per mole of agent.
 *
 * Special cases: thiosulfate reacts along several paths; its stoichiometric figure is the largest, its range is given.
 *
 * @param input volume (L), residual (mg/L as Cl2), agent (an id of `reference/chlorine/dechlorination.json`)
 * @throws RangeError when the agent is unknown
 * @source awwa-field-guide-2006
 * @source dechlorination-equations
 * @example
 * dechlorination({ waterVolumeL: 10000, residualMgPerL: 50, agent: 'ascorbic-acid' }).kilograms // => 1.25
 */
export function dechlorination({ waterVolumeL, residualMgPerL, agent }: DechlorinationInput): Dechlorination {
  const row = table.agents.find(({ id }) => id === agent)
  if (row === undefined) throw new RangeError(`Cannot dechlorinate because the agent is unknown: got ${agent}`)
  const chlorineKilograms = (waterVolumeL * residualMgPerL) / MG_PER_KG
  const massRatio = row.molarMass.value / CHLORINE
  const upper = (chlorineKilograms * massRatio) / row.chlorineMolesPerMole.lower
  return {
    kilograms: chlorineKilograms * row.fieldDose.value,
    stoichiometricKilograms: upper,
    stoichiometricRangeKilograms: { lower: (chlorineKilograms * massRatio) / row.chlorineMolesPerMole.upper, upper },
    basis: `Field dose of ${row.fieldDose.value} mg of ${row.name} per mg of chlorine at pH 7.${row.note === undefined ? '' : ` ${row.note}`}`,
  }
}

export const dechlorinationCalculation = defineCalculation({
  id: 'dechlorination',
  title: 'Dechlorination before discharge',
  purpose: 'How much of an agent takes the chlorine out of flushed or drained water before it is let go.',
  formula: {
    text: 'kilograms = V · C · d / 10⁶; stoichiometric = V · C · M / (70.906 · r · 10⁶)',
    symbols: {
      V: 'waterVolumeL',
      C: 'residualMgPerL',
      d: 'field dose of the agent (mg per mg of Cl2)',
      M: 'molar mass of the agent (g/mol)',
      r: 'moles of Cl2 per mole of agent, the least where several are possible',
    },
  },
  input: z.strictObject({
    waterVolumeL: field(measure.positive(), { what: 'water to be let go', unit: 'L' }),
    residualMgPerL: field(measure.amount(), { what: 'total chlorine in it, as Cl2', unit: 'mg/L' }),
    agent: field(z.enum(table.agents.map(({ id }) => id)), { what: 'the dechlorinating agent' }),
  }),
  output: z.object({
    kilograms: field(z.number(), { what: 'agent by published field dose', unit: 'kg' }),
    stoichiometricKilograms: field(z.number(), { what: 'agent by the equation, the most it can ask for', unit: 'kg' }),
    stoichiometricRangeKilograms: intervalField({ what: 'agent by the equation, over the possible paths', unit: 'kg' }),
    basis: field(z.string(), { what: 'which figure, and what is unsure about it' }),
  }),
  sources: sourcesOf(
    'awwa-field-guide-2006',
    'dechlorination-equations',
    'thiosulfate-one-electron',
    'thiosulfate-eight-electron',
  ),
  cautions: [
    'Measure the residual again before discharge; the permit and the local code decide what may be let go, and where.',
    'Too much agent takes the oxygen out of the water that receives it. Editions of the source disagree on thiosulfate.',
    'Handle the agent by its label: bisulfite and metabisulfite give off a choking gas, most with acid; ventilate, cover eyes and skin.',
    'For sample bottles use the neutralizer calculation, not this one.',
  ],
  example: {
    input: { waterVolumeL: 10000, residualMgPerL: 50, agent: 'sodium-thiosulfate' },
    output: {
      kilograms: 0.95,
      stoichiometricKilograms: 2.229853609003469,
      stoichiometricRangeKilograms: { lower: 0.27873170112543366, upper: 2.229853609003469 },
      basis:
        'Field dose of 1.9 mg of sodium thiosulfate, anhydrous per mg of chlorine at pH 7. The source does not say which salt its 1.9 mg per mg is of; taken here as the anhydrous one.',
    },
  },
  run: dechlorination,
})
