import table from '@rillmark/reference/chlorine/decay.json' with { type: 'json' }
import { KELVIN_AT_ZERO_C } from '../water/kelvin.ts'

export interface BulkFactorInput {
  temperatureC: number
  referenceC: number
  activationKJPerMol?: number | undefined
}

const J_PER_KJ = 1000
const FIGURES = table.figures

/**
 * How many times faster a residual decays in the water at a temperature than at the one its coefficient is given for (1).
 * Wanted wherever decay meets temperature: the calculation of a residual and the simulation of a building share it.
 *
 * f = 1.1^(T − T₀), or exp[−E/R (1/T − 1/T₀)] where an activation energy E is given (T in kelvin).
 *
 * Special cases: the tenth for each degree was found between about 20 and 30 °C and grows without end beyond.
 *
 * @param input temperatures (°C), activation energy (kJ/mol, optional)
 * @source koechling-1998
 * @source si-constants
 * @example
 * bulkFactor({ temperatureC: 20, referenceC: 20, activationKJPerMol: 60 }) // => 1
 */
export function bulkFactor({ temperatureC, referenceC, activationKJPerMol }: BulkFactorInput): number {
  if (activationKJPerMol === undefined) return FIGURES.factorPerK.value ** (temperatureC - referenceC)
  const slope = (activationKJPerMol * J_PER_KJ) / FIGURES.gasConstant.value
  return Math.exp(slope * (1 / (referenceC + KELVIN_AT_ZERO_C) - 1 / (temperatureC + KELVIN_AT_ZERO_C)))
}
