import type { DisplayUnits } from './display-units.ts'
import {
  type Concentration,
  basisOf,
  concentrationUnitSchema,
  convertConcentration,
  familyOf,
  withoutNoise,
} from './quantity.ts'
import {
  decimalsOf,
  inOtherUnit,
  inOtherUnitAsGiven,
  isOtherUnit,
  isRecordUnit,
  plainText,
  preferredUnit,
} from './scales.ts'

/** A value as it is shown: its text, its unit, and both together. */
export interface Shown {
  readonly text: string
  readonly unit: string
  readonly words: string
}

/** The unit a value is in, and the units a person prefers. */
export interface ShownIn {
  readonly unit: string
  readonly units: DisplayUnits
}

/**
 * A value that was given, in the unit a person prefers, with no digit lost and none added. Units that have no other beside them stay.
 * @throws RangeError when the value is not finite
 * @example show(60, { unit: '°C', units: US_UNITS }).words // '140 °F'
 */
export function show(value: number, { unit, units }: ShownIn): Shown {
  const wanted = unitFor({ value, unit, units })
  if (isOtherUnit(wanted)) return shown(inOtherUnitAsGiven(value, wanted), wanted)
  return decimalsOf(value) > MOST_GIVEN_DECIMALS
    ? showReckoned(value, { unit, units, digits: GIVEN_DIGITS })
    : shownInRecordUnit({ value, unit: wanted })
}

/** Longer tails were reckoned, not given. */
const MOST_GIVEN_DECIMALS = 6
const GIVEN_DIGITS = 6
const RECKONED_DIGITS = 4

/** A value that was reckoned, converted before it is rounded, to the digits asked for (four). */
export function showReckoned(
  value: number,
  { unit, units, digits = RECKONED_DIGITS }: ShownIn & { readonly digits?: number },
): Shown {
  const wanted = unitFor({ value, unit, units })
  const there = isOtherUnit(wanted) ? inOtherUnit(value, wanted) : value
  const rounded = Number.isInteger(there) ? there : Number(there.toPrecision(digits))
  return isOtherUnit(wanted) ? shown(plainText(rounded), wanted) : shownInRecordUnit({ value: rounded, unit: wanted })
}

/** Two values of one unit as a range: `2 to 8 °C`. */
export function showRange([low, high]: readonly [number, number], shownIn: ShownIn): string {
  const [from, to] = [show(low, shownIn), show(high, shownIn)]
  if (from.text === to.text && from.unit === to.unit) return to.words
  return from.unit === to.unit ? `${from.text} to ${to.words}` : `${from.words} to ${to.words}`
}

/** A temperature as a probe showed it. */
export const showTemperature = (celsius: number, units: DisplayUnits): Shown => show(celsius, { unit: '°C', units })

/** A concentration in the volume a person prefers, within its own family; a swab, or "as reported", stays as it is. */
export function showConcentration({ value, unit }: Concentration, units: DisplayUnits): Shown {
  if (units.count === 'as reported' || basisOf(unit) === 'swab') return shown(plainText(value), unit)
  const to = concentrationUnitSchema.parse(`${familyOf(unit)}/${units.count.slice('per '.length)}`)
  const converted = convertConcentration({ value, unit }, to)
  return converted.kind === 'converted' ? shown(plainText(converted.value), to) : shown(plainText(value), unit)
}

/** Less than this of a US gallon is told in mL, which is what bottles are marked in. */
const SMALLEST_US_GALLONS = 0.1

function unitFor({ value, unit, units }: ShownIn & { value: number }): string {
  if (!isRecordUnit(unit)) return unit
  const wanted = preferredUnit(unit, units)
  return wanted === 'US gal' && Math.abs(inOtherUnit(value, wanted)) < SMALLEST_US_GALLONS ? unit : wanted
}

function shownInRecordUnit({ value, unit }: { value: number; unit: string }): Shown {
  if (unit === 'L' && value > 0 && value < 1) return shown(plainText(withoutNoise(value * ML_PER_L)), 'mL')
  return shown(plainText(value), unit)
}

const ML_PER_L = 1000

const shown = (text: string, unit: string): Shown => ({ text, unit, words: unit === '' ? text : `${text} ${unit}` })
