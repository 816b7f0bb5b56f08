import table from '@rillmark/reference/network/growth.json' with { type: 'json' }
import { type CardinalTemperatures, cardinalRate } from './cardinal-temperature.ts'

/** `usual`, or `wide`, the sensitivity case that grants growth more of the cold and of the heat. */
export type GrowthSet = 'usual' | 'wide'

const FIGURES = table.figures

/**
 * The cardinal temperatures taken for Legionella (°C).
 *
 * Special cases: no source fits the curve to Legionella; the two sets bracket what was observed.
 *
 * @param set which of them
 * @throws RangeError for a set that is not kept
 * @source kusnetsov-1996
 * @source schulze-roebbecke-1987
 * @source soederberg-2008
 * @example
 * growthTemperatures('usual').maximumC // => 48.4
 */
export function growthTemperatures(set: GrowthSet = 'usual'): CardinalTemperatures {
  const found = table.sets.find(({ id }) => id === set)
  if (found !== undefined) return found
  throw new RangeError(`Cannot tell temperatures of growth because the set is unknown: got ${set}`)
}

/**
 * How far a residual damps what favours growth (1 without any, towards 0).
 *
 * d = 1 / (1 + C/C½), C½ the threshold of the survey of distribution systems.
 *
 * @param residualMgPerL at least 0
 * @source lechevallier-2019
 * @example
 * residualDamping(0.1) // => 0.5
 */
export function residualDamping(residualMgPerL: number): number {
  return 1 / (1 + residualMgPerL / FIGURES.halfResidual.value)
}

/**
 * How much water of a temperature and residual favours growth (0 to 1). Screening.
 *
 * g(T) · d(C).
 *
 * @param water temperature (°C), residual (mg/L, at least 0)
 * @param set cardinal temperatures
 * @source rosso-1993
 * @source lechevallier-2019
 * @example
 * favourOf({ temperatureC: 37, residualMgPerL: 0.1 }) // => 0.5
 */
export function favourOf(
  { temperatureC, residualMgPerL }: { temperatureC: number; residualMgPerL: number },
  set: GrowthSet = 'usual',
): number {
  return cardinalRate(temperatureC, growthTemperatures(set)) * residualDamping(residualMgPerL)
}

export interface PlaceGrowth {
  /** Mean over the day of what the water there carries, 0 to 1. */
  meanGrowth: number
  /** Mean over the day of g(T) · d(C) there: what the biofilm on the wall meets, 0 to 1. */
  meanFavour: number
  longestStagnationHours: number
}

/**
 * The growth index of a place (0 to 1): how much its water and its standing favour Legionella. A screening figure, neither
 * a concentration nor a chance.
 * Wanted to say where to look first, for the same reasons everywhere.
 *
 * index = 1 − (1 − F)(1 − w B), F what arrives with the water, B the favour at the place, w = w₀ + (1 − w₀) h/(h + h½) with
 * h the hours without flow.
 *
 * Special cases: 0 where nothing arrives and the place does not favour growth; never above 1; each of the three only
 * raises it. It is of one repeating day, so that the number of days that were simulated does not enter. Outlet temperature
 * alone separates published surveys weakly: their own counts overlap.
 *
 * @param place day means (0 to 1) and hours at least 0
 * @throws RangeError when a figure is out of range
 * @source nisar-2020
 * @source lechevallier-2019
 * @example
 * growthIndexOf({ meanGrowth: 0, meanFavour: 1, longestStagnationHours: 8 }) // => 0.75
 */
export function growthIndexOf({ meanGrowth, meanFavour, longestStagnationHours }: PlaceGrowth): number {
  const carried = asShare({ name: 'meanGrowth', value: meanGrowth })
  const met = asShare({ name: 'meanFavour', value: meanFavour })
  return 1 - (1 - carried) * (1 - standingWeight(longestStagnationHours) * met)
}

/** Means of many steps overshoot by rounding alone. */
const ROUNDING = 1e-6

function asShare({ name, value }: { name: string; value: number }): number {
  if (value >= -ROUNDING && value <= 1 + ROUNDING) return Math.min(1, Math.max(0, value))
  throw new RangeError(`Cannot make a growth index because ${name} must be 0 to 1: got ${value}`)
}

function standingWeight(hours: number): number {
  if (!(hours >= 0))
    throw new RangeError(`Cannot make a growth index because the hours without flow must be 0 or more: got ${hours}`)
  const least = FIGURES.shareWithoutStagnation.value
  if (hours === Number.POSITIVE_INFINITY) return 1
  return least + (1 - least) * (hours / (hours + FIGURES.stagnationHalfTime.value))
}
