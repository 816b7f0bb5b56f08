import table from '@rillmark/reference/chlorine/hypochlorous.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, intervalField } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import type { Interval } from '../distributions/poisson-limits.ts'
import { KELVIN_AT_ZERO_C } from '../water/kelvin.ts'

export interface HypochlorousFractionInput {
  pH: number
  temperatureC: number
}

export interface HypochlorousFraction {
  pKa: number
  fractionHocl: number
  fractionRange: Interval
  basis: string
}

const FIGURES = table.figures
/** The temperatures for which the acid constant is reckoned at all (°C). */
export const acidConstantRangeC = { lower: 0, upper: FIGURES.reckonedToC.value }

/**
 * The share of free chlorine that is hypochlorous acid (0 to 1) and its acid constant.
 * Wanted because the acid disinfects and hypochlorite hardly does: the same residual at pH 8.5 is a fraction of one at 7.
 *
 * share = 1 / (1 + 10^(pH − pKa)); pKa = 3000/T − 10.0686 + 0.0253 T, T in kelvin.
 *
 * Special cases: at pH = pKa the share is one half. Above 35 °C the constant is beyond what was measured; the basis says
 * so. The range is that of three published constants.
 *
 * @param input pH 0 to 14, temperature 0 to 60 °C
 * @throws RangeError outside the temperatures
 * @source morris-1966
 * @source epa-plant-model
 * @source benjamin-2015
 * @example
 * hypochlorousFraction({ pH: 7.5, temperatureC: 20 }).fractionHocl // => 0.5469284770312561
 */
export function hypochlorousFraction({ pH, temperatureC }: HypochlorousFractionInput): HypochlorousFraction {
  const pKa = morrisPKa(temperatureC)
  const temperatureK = temperatureC + KELVIN_AT_ZERO_C
  const shares = [pKa, plantPKa(temperatureK), benjaminPKa(temperatureK)].map((each) => shareOf({ pH, pKa: each }))
  const beyond = temperatureC > FIGURES.measuredToC.value
  return {
    pKa,
    fractionHocl: shareOf({ pH, pKa }),
    fractionRange: { lower: Math.min(...shares), upper: Math.max(...shares) },
    basis: `Constant by Morris, measured from 0 to ${FIGURES.measuredToC.value} °C${beyond ? '; here drawn on beyond that' : ''}. The range is that of three published constants.`,
  }
}

/**
 * The acid constant of hypochlorous acid as pKa, by Morris.
 *
 * @param temperatureC 0 to 60 °C
 * @throws RangeError outside the range
 * @source morris-1966
 * @example
 * morrisPKa(25) // => 7.536644304041589
 */
export function morrisPKa(temperatureC: number): number {
  const { lower, upper } = acidConstantRangeC
  if (!(temperatureC >= lower && temperatureC <= upper)) {
    throw new RangeError(
      `Cannot tell the acid constant because it holds from ${lower} to ${upper} °C: got ${temperatureC}`,
    )
  }
  const temperatureK = temperatureC + KELVIN_AT_ZERO_C
  return FIGURES.morrisSlope.value / temperatureK - FIGURES.morrisOffset.value + FIGURES.morrisRise.value * temperatureK
}

function plantPKa(temperatureK: number): number {
  const slope = FIGURES.plantEnthalpy.value / FIGURES.plantGasConstant.value
  return (FIGURES.plantMinusLnKa.value - slope * (1 / FIGURES.plantReference.value - 1 / temperatureK)) / Math.LN10
}

function benjaminPKa(temperatureK: number): number {
  const slope = FIGURES.benjaminEnthalpy.value / FIGURES.gasConstant.value / Math.LN10
  return FIGURES.benjaminPKa.value + slope * (1 / temperatureK - 1 / FIGURES.benjaminReference.value)
}

function shareOf({ pH, pKa }: { pH: number; pKa: number }): number {
  return 1 / (1 + 10 ** (pH - pKa))
}

export const hypochlorousFractionCalculation = defineCalculation({
  id: 'hypochlorous-fraction',
  title: 'Hypochlorous acid in free chlorine',
  purpose:
    'What share of a free chlorine residual is the form that disinfects, at the pH and temperature of the water.',
  formula: {
    text: 'share = 1 / (1 + 10^(pH − pKa)); pKa = 3000/T − 10.0686 + 0.0253·T',
    symbols: { share: 'fractionHocl', pH: 'pH', pKa: 'pKa', T: 'temperature in kelvin = temperatureC + 273.15' },
  },
  input: z.strictObject({
    pH: field(z.number().min(0).max(14), { what: 'pH of the water' }),
    temperatureC: field(z.number().min(acidConstantRangeC.lower).max(acidConstantRangeC.upper), {
      what: 'temperature of the water',
      unit: '°C',
    }),
  }),
  output: z.object({
    pKa: field(z.number(), { what: 'acid constant, as its negative logarithm' }),
    fractionHocl: field(z.number(), { what: 'share of free chlorine that is hypochlorous acid, 0 to 1' }),
    fractionRange: intervalField({ what: 'the share by three published constants, 0 to 1' }),
    basis: field(z.string(), { what: 'which constant, and how far it was measured' }),
  }),
  sources: sourcesOf('morris-1966', 'epa-plant-model', 'benjamin-2015'),
  cautions: [
    'For free chlorine. A chloraminated supply has next to none; measure total chlorine there.',
    'Do not lower the pH to help chlorine without the water utility or a licensed treatment trade: acid and hypochlorite together give off chlorine gas.',
  ],
  example: {
    input: { pH: 7.5, temperatureC: 20 },
    output: {
      pKa: 7.5817637702541365,
      fractionHocl: 0.5469284770312561,
      fractionRange: {
        lower: 0.5409149346294382,
        upper: 0.5573987948726293,
      },
      basis: 'Constant by Morris, measured from 0 to 35 °C. The range is that of three published constants.',
    },
  },
  run: hypochlorousFraction,
})
