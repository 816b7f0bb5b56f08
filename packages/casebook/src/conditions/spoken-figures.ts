import type { DisplayUnits } from '../units/display-units.ts'
import { showReckoned, showTemperature } from '../units/display.ts'
import { inOtherUnit } from '../units/scales.ts'
import { showPredicted } from './shown-quantity.ts'

/** Predicted figures as a sentence says them, in the reader's units. */
export interface SpokenFigures {
  readonly degrees: (celsius: number) => string
  /** a limit or setting, with the digits it was given in */
  readonly limit: (celsius: number) => string
  /** a difference, without its sign */
  readonly kelvin: (difference: number) => string
  readonly litres: (volume: number) => string
  readonly metres: (length: number) => string
  readonly hours: (hours: number) => string
  readonly milligrams: (mgPerL: number) => string
  readonly watts: (power: number) => string
  readonly speed: (mPerS: number) => string
}

const MINUTES_AN_HOUR = 60
const HOURS_A_DAY = 24
/** From here on hours are told in days. */
const DAYS_FROM_HOURS = 72

export function spokenFigures(units: DisplayUnits): SpokenFigures {
  const reckoned = (value: number, { unit, digits }: { unit: string; digits: number }): string =>
    showReckoned(value, { unit, units, digits }).words
  return {
    degrees: (celsius) => showPredicted(celsius, { quantity: 'temperature', units }).words,
    limit: (celsius) => showTemperature(celsius, units).words,
    kelvin: (difference) => differenceWords(Math.abs(difference), units),
    litres: (volume) => reckoned(volume, { unit: 'L', digits: 3 }),
    metres: (length) => reckoned(length, { unit: 'm', digits: 2 }),
    hours: hoursWords,
    milligrams: (mgPerL) => showPredicted(mgPerL, { quantity: 'residual', units }).words,
    watts: (power) => `${Math.round(Math.abs(power))} W`,
    speed: (mPerS) => reckoned(mPerS, { unit: 'm/s', digits: 1 }),
  }
}

const differenceWords = (kelvin: number, { temperature }: DisplayUnits): string =>
  temperature === '°F' ? `${inOtherUnit(kelvin, '°F difference').toFixed(1)} °F` : `${kelvin.toFixed(1)} K`

/** Minutes, hours or days, whichever is said of so long a time. */
function hoursWords(hours: number): string {
  if (hours < 1) return `${Math.round(hours * MINUTES_AN_HOUR)} min`
  if (hours < DAYS_FROM_HOURS) return `${hours.toFixed(1)} h`
  return `${Math.round(hours / HOURS_A_DAY)} days`
}
