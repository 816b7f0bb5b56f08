import table from '@rillmark/reference/network/growth.json' with { type: 'json' }
import { bulkFactor } from '../chlorine/bulk-factor.ts'
import { disinfectantContact } from '../inactivation/disinfectant-contact.ts'
import { heatInactivation, heatInactivationRangeC } from '../inactivation/heat-inactivation.ts'
import { liquidWaterRangeC } from '../water/liquid-water.ts'
import { cardinalRate } from './cardinal-temperature.ts'
import { type GrowthSet, growthTemperatures } from './growth.ts'
import type { Chemistry } from './network.ts'

/** The tables begin at this temperature (°C) and go to `HIGHEST_C` in steps of `TABLE_STEP_C`. */
export const LOWEST_C = liquidWaterRangeC.lower
export const HIGHEST_C = liquidWaterRangeC.upper
export const TABLE_STEP_C = 0.25

/**
 * What goes on in the water, as tables over temperature: entry i is at LOWEST_C + i · TABLE_STEP_C. One more entry follows,
 * a copy of the last, so that a straight line between i and i + 1 may be read at HIGHEST_C too.
 */
export interface Kinetics {
  bulkPerHour: Float64Array
  /** g(T), 0 to 1. */
  favour: Float64Array
  /** Killing of what the water carries by heat. */
  dieOffPerHour: Float64Array
  /** Killing of what the water carries, for each mg/L of residual. */
  killPerHourPerMgPerL: Float64Array
  /** Growth at the best temperature without residual. */
  growthPerHour: number
  /** Residual that halves growth; infinite where the disinfectant is one of which nothing is known. */
  halfResidualMgPerL: number
}

const FIGURES = table.figures
const MINUTES_PER_HOUR = 60

/**
 * Tables of the rates at which a residual decays and of what favours and kills Legionella in the water.
 * Wanted because the simulation asks millions of times: it reads a table, and the laws stay where they are, in one copy.
 *
 * dC/dt = −k_b f(T) C; dF/dt = r g(T) d(C) (1 − F) − [k_h(T) + k_c(T) C] F. k_b by `bulkFactor`; r = ln 2 / doubling time;
 * g the cardinal temperatures; k_h = ln 10 / D(T) of the published heat inactivation; k_c = ln 10 / k of the published
 * contact with a disinfectant, divided by the shelter that biofilm and amoebae give.
 *
 * Special cases: below the greatest temperature of growth heat kills nothing, for there g is what growth and dying leave;
 * above the temperatures tested for heat the rate of the hottest is kept. A disinfectant other than chlorine and chloramine
 * is counted neither to damp nor to kill. A screening model.
 *
 * @param chemistry bulk decay (per hour) with its reference temperature, disinfectant, pH
 * @param set cardinal temperatures: `usual`, or `wide` as the sensitivity case
 * @throws RangeError when a rate is not a number of 0 or more
 * @source rosso-1993
 * @source doubling-times-remembered
 * @source cooper-hanlon-2010
 * @example
 * makeKinetics({ disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 }).favour[148] // => 1
 */
export function makeKinetics(chemistry: Chemistry, set: GrowthSet = 'usual'): Kinetics {
  const { bulkPerHour, disinfectant } = chemistry
  if (!(bulkPerHour >= 0 && bulkPerHour < Number.POSITIVE_INFINITY))
    throw new RangeError(`Cannot simulate decay because the bulk rate must be 0 or more per hour: got ${bulkPerHour}`)
  const temperatures = growthTemperatures(set)
  const known = disinfectant === 'free-chlorine' || disinfectant === 'chloramine'
  return {
    bulkPerHour: tabulated((temperatureC) => bulkPerHour * bulkFactor({ ...chemistry, temperatureC })),
    favour: tabulated((temperatureC) => cardinalRate(temperatureC, temperatures)),
    dieOffPerHour: remembered(`heat ${set}`, (temperatureC) =>
      temperatureC < temperatures.maximumC ? 0 : heatPerHour(temperatureC),
    ),
    killPerHourPerMgPerL: remembered(`kill ${disinfectant} ${chemistry.pH}`, (temperatureC) =>
      killPerHour(chemistry, temperatureC),
    ),
    growthPerHour: Math.LN2 / FIGURES.doublingAtOptimum.value,
    halfResidualMgPerL: known ? FIGURES.halfResidual.value : Number.POSITIVE_INFINITY,
  }
}

/**
 * The value of a table at a temperature, on a straight line between its entries.
 *
 * Special cases: outside the table, its end.
 *
 * @param entries a table of `Kinetics`
 * @param temperatureC any
 * @source none: it computes nothing of the trade
 * @example
 * tabled(makeKinetics({ disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 }).favour, 10) // => 0
 */
export function tabled(entries: Float64Array, temperatureC: number): number {
  const place = (Math.min(HIGHEST_C, Math.max(LOWEST_C, temperatureC)) - LOWEST_C) / TABLE_STEP_C
  const at = Math.floor(place)
  const [below, above] = [entries[at] ?? 0, entries[at + 1] ?? 0]
  return below + (above - below) * (place - at)
}

/**
 * What the water carries after a time at one temperature and residual (0 to 1).
 *
 * F(t) = E + (F₀ − E) e^(−(a + k) t), a = r g d, k = k_h + k_c C, E = a / (a + k).
 *
 * Special cases: where nothing grows or dies, the start.
 *
 * @param kinetics tables
 * @param water start (0 to 1), hours (at least 0), temperature (°C), residual (mg/L)
 * @source rosso-1993
 * @example
 * growthAfter(makeKinetics({ disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 }), { start: 0, hours: 24, temperatureC: 37, residualMgPerL: 0 }) // => 0.5
 */
export function growthAfter(
  kinetics: Kinetics,
  water: { start: number; hours: number; temperatureC: number; residualMgPerL: number },
): number {
  const { start, hours, temperatureC, residualMgPerL } = water
  const damping = 1 / (1 + residualMgPerL / kinetics.halfResidualMgPerL)
  const growing = kinetics.growthPerHour * tabled(kinetics.favour, temperatureC) * damping
  const dying =
    tabled(kinetics.dieOffPerHour, temperatureC) + tabled(kinetics.killPerHourPerMgPerL, temperatureC) * residualMgPerL
  const pace = growing + dying
  if (pace === 0) return start
  const end = growing / pace
  return end + (start - end) * Math.exp(-pace * hours)
}

/**
 * A law as a table over the temperatures of liquid water, its last entry twice.
 *
 * @param law value at a temperature (°C)
 * @source none: it computes nothing of the trade
 * @example
 * tabulated((temperatureC) => temperatureC)[4] // => 1
 */
export function tabulated(law: (temperatureC: number) => number): Float64Array {
  const last = Math.round((HIGHEST_C - LOWEST_C) / TABLE_STEP_C)
  return Float64Array.from({ length: last + 2 }, (_, at) => law(LOWEST_C + Math.min(at, last) * TABLE_STEP_C))
}

const REMEMBERED = new Map<string, Float64Array>()
/** A calibration tries one acidity after another. */
const MOST_REMEMBERED = 16

/** Tables whose laws are long, kept by what they depend on; never changed. */
function remembered(key: string, law: (temperatureC: number) => number): Float64Array {
  const known = REMEMBERED.get(key)
  if (known !== undefined) return known
  if (REMEMBERED.size >= MOST_REMEMBERED) REMEMBERED.clear()
  const made = tabulated(law)
  REMEMBERED.set(key, made)
  return made
}

function heatPerHour(temperatureC: number): number {
  const { lower, upper } = heatInactivationRangeC
  const tested = Math.min(upper, Math.max(lower, temperatureC))
  const { decimalReductionMinutes } = heatInactivation({ temperatureC: tested, minutes: 0 })
  return (Math.LN10 * MINUTES_PER_HOUR) / decimalReductionMinutes.central
}

function killPerHour({ disinfectant, pH = FIGURES.usualPH.value }: Chemistry, temperatureC: number): number {
  if (disinfectant === 'none' || disinfectant === 'other') return 0
  const { ctPerLog10 } = disinfectantContact({
    residualMgPerL: 0,
    minutes: 0,
    disinfectant: disinfectant === 'chloramine' ? 'monochloramine' : disinfectant,
    pH,
    temperatureC,
  })
  return (Math.LN10 * MINUTES_PER_HOUR) / ctPerLog10.central / FIGURES.shelter.value
}
