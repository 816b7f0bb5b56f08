import table from '@rillmark/reference/inactivation/disinfectant.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { hypochlorousFraction } from '../chlorine/hypochlorous-fraction.ts'
import { liquidWaterRangeC } from '../water/liquid-water.ts'
import { type Estimate, estimateField, estimateOf } from './estimate.ts'

export interface DisinfectantContactInput {
  residualMgPerL: number
  minutes: number
  disinfectant: 'free-chlorine' | 'monochloramine'
  pH: number
  temperatureC: number
}

export interface DisinfectantContact {
  ctMgMinPerL: number
  log10Reduction: Estimate
  ctPerLog10: Estimate
  basis: string
}

/**
 * Residual times contact time (mg min/L as Cl2) and what it does to suspended Legionella (log10), as a range.
 * Wanted to compare a shock or a standing residual with what was published, and to see how little that tells of biofilm.
 *
 * CT = C · t; reduction = CT / k; for free chlorine each published k is carried over by hypochlorous acid:
 * k(pH, T) = k₀ · s₀ / s(pH, T) · c(T), s the share of acid, c the slowing by cold that doubles the time from 21 to 4 °C.
 *
 * Special cases: no residual or no time reduces by 0. Above 25 °C no further gain is taken. For monochloramine one
 * figure is published and neither pH nor temperature is carried over; its range is an assumption.
 *
 * @param input residual (mg/L as Cl2, at least 0), minutes (at least 0), pH 5 to 10, temperature 0 to 100 °C
 * @source kuchta-1983
 * @source water-research-1985
 * @source cunliffe-1990
 * @example
 * disinfectantContact({ residualMgPerL: 1, minutes: 15, disinfectant: 'monochloramine', pH: 8, temperatureC: 20 }).log10Reduction.central // => 2
 */
export function disinfectantContact(input: DisinfectantContactInput): DisinfectantContact {
  const ctMgMinPerL = input.residualMgPerL * input.minutes
  const ctPerLog10 = input.disinfectant === 'free-chlorine' ? freeChlorine(input) : monochloramine()
  return {
    ctMgMinPerL,
    log10Reduction: {
      central: ctMgMinPerL / ctPerLog10.central,
      lower: ctMgMinPerL / ctPerLog10.upper,
      upper: ctMgMinPerL / ctPerLog10.lower,
    },
    ctPerLog10,
    basis: basisOf(input),
  }
}

function freeChlorine(water: { pH: number; temperatureC: number }): Estimate {
  return estimateOf(
    table.free.map((test) => (test.ctMgMinPerL / test.log10Reduction) * (hardness(water) / hardness(test))),
  )
}

/** How much more free chlorine and time the same kill takes than at full acid and 21 °C. */
function hardness({ pH, temperatureC }: { pH: number; temperatureC: number }): number {
  const testedC = Math.min(temperatureC, table.warmestC.value)
  return 10 ** (COLD_PER_K * (table.chill.warmC - testedC)) / acidShare({ pH, temperatureC: testedC })
}

function acidShare(water: { pH: number; temperatureC: number }): number {
  return hypochlorousFraction(water).fractionHocl
}

const { coldC, warmC, pH: chillPH, timesAsLong } = table.chill
/** Log10 of the slowing per kelvin, in terms of acid: in the cold there is more of it, and it still took twice as long. */
const COLD_PER_K =
  Math.log10(
    (timesAsLong * acidShare({ pH: chillPH, temperatureC: coldC })) / acidShare({ pH: chillPH, temperatureC: warmC }),
  ) /
  (warmC - coldC)

function monochloramine(): Estimate {
  const central = table.monochloramine.ctMgMinPerL / table.monochloramine.log10Reduction
  const { factor } = table.monochloramineSpread
  return { central, lower: central / factor, upper: central * factor }
}

const FREE = {
  studies: new Set(table.free.map(({ source }) => source)).size,
  lowestPH: Math.min(...table.free.map(({ pH }) => pH)),
  highestPH: Math.max(...table.free.map(({ pH }) => pH)),
  mostLog10: Math.max(...table.free.map(({ log10Reduction }) => log10Reduction)).toFixed(1),
}

function basisOf({ disinfectant, temperatureC }: DisinfectantContactInput): string {
  const biofilm = `Suspended cells in clean water; biofilm has outlived ${table.biofilm.ctMgMinPerL} mg min/L, so no lower limit holds there.`
  if (disinfectant === 'monochloramine') {
    return `One published figure (99 % at ${table.monochloramine.ctMgMinPerL} mg min/L); the range is twofold either way by assumption; pH and temperature are not counted. ${biofilm}`
  }
  const warm =
    temperatureC > table.warmestC.value
      ? ` Nothing was tested above ${table.warmestC.value} °C, and no gain is taken there.`
      : ''
  return `${table.free.length} published figures from ${FREE.studies} studies at pH ${FREE.lowestPH} to ${FREE.highestPH}, carried over by the share of hypochlorous acid and by the doubling of the time in the cold; beyond ${FREE.mostLog10} log10 nothing was measured.${warm} ${biofilm}`
}

export const disinfectantContactCalculation = defineCalculation({
  id: 'disinfectant-contact',
  title: 'Contact time with disinfectant',
  purpose:
    'What a residual over a time does to suspended Legionella, as a range, and why that is not the whole answer.',
  formula: {
    text: 'CT = C·t; reduction = CT / k; k = k0·(s0/s)·10^(a·(21 − T)) for free chlorine',
    symbols: {
      CT: 'ctMgMinPerL',
      C: 'residualMgPerL',
      t: 'minutes',
      reduction: 'log10Reduction.central',
      k: 'ctPerLog10.central',
      s: 'share of hypochlorous acid at the pH and temperature',
      T: 'temperatureC',
      a: 'slowing by cold per kelvin',
    },
  },
  input: z.strictObject({
    residualMgPerL: field(measure.amount(), { what: 'residual throughout the time, as Cl2', unit: 'mg/L' }),
    minutes: field(measure.amount(), { what: 'contact time', unit: 'min' }),
    disinfectant: field(z.enum(['free-chlorine', 'monochloramine']), { what: 'what the residual is' }),
    pH: field(z.number().min(5).max(10), { what: 'pH of the water' }),
    temperatureC: field(z.number().min(liquidWaterRangeC.lower).max(liquidWaterRangeC.upper), {
      what: 'temperature of the water',
      unit: '°C',
    }),
  }),
  output: z.object({
    ctMgMinPerL: field(z.number(), { what: 'residual times contact time', unit: 'mg min/L' }),
    log10Reduction: estimateField({ what: 'reduction of suspended cells in powers of ten' }),
    ctPerLog10: estimateField({ what: 'residual times contact time for a tenth to remain', unit: 'mg min/L' }),
    basis: field(z.string(), { what: 'what the range rests on and where it does not reach' }),
  }),
  sources: sourcesOf(
    'kuchta-1983',
    'water-research-1985',
    'cunliffe-1990',
    'morris-1966',
    'dupuy-2011',
    'cooper-hanlon-2010',
    'common-practice',
  ),
  cautions: [
    'Published values disagree and are of suspended cells. Biofilm, amoebae and dead ends shield Legionella: sample again, do not conclude from this.',
    'The residual falls while it works: use the lowest one measured, at the furthest outlet.',
    'Never mix chlorine with acid or ammonia. Nobody drinks or showers during a shock; follow the product label, the local code and the licensed trade.',
  ],
  example: {
    input: { residualMgPerL: 0.5, minutes: 30, disinfectant: 'free-chlorine', pH: 7.4, temperatureC: 25 },
    output: {
      ctMgMinPerL: 15,
      log10Reduction: {
        central: 7.578034375746787,
        lower: 4.0668,
        upper: 11.06885460608943,
      },
      ctPerLog10: {
        central: 1.9794051143403273,
        lower: 1.3551537655710002,
        upper: 3.68840365889643,
      },
      basis:
        '4 published figures from 2 studies at pH 7.4 to 7.6, carried over by the share of hypochlorous acid and by the doubling of the time in the cold; beyond 6.8 log10 nothing was measured. Suspended cells in clean water; biofilm has outlived 3000 mg min/L, so no lower limit holds there.',
    },
  },
  run: disinfectantContact,
})
