import type { BodyOf } from '../entry/kinds.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { show } from '../units/display.ts'

export type Amount = NonNullable<BodyOf<'measure.ordered'>['target']>

/** An amount in words: `70 °C for 30 min`, `20 min`; in the reader's units. */
export function amountWords({ quantity, value, unit, minutes }: Amount, units: DisplayUnits = METRIC_UNITS): string {
  const { words: number } = show(value, { unit, units })
  const named = quantity === 'total chlorine' || quantity === 'free chlorine' ? `${number} ${quantity}` : number
  return minutes === undefined ? named : `${named} for ${durationOf(minutes)}`
}

function durationOf(minutes: number): string {
  return minutes >= 120 && minutes % 60 === 0 ? `${minutes / 60} h` : `${minutes} min`
}
