import type { BodyOf } from '../entry/kinds.ts'

export type Amount = NonNullable<BodyOf<'measure.ordered'>['target']>

/** An amount in words: `70 °C for 30 min`, `20 min`. */
export function amountWords({ quantity, value, unit, minutes }: Amount): string {
  const number = `${value} ${unit}`
  const named = quantity === 'total chlorine' || quantity === 'free chlorine' ? `${number} ${quantity}` : number
  return minutes === undefined ? named : `${named} for ${durationOf(minutes)}`
}

function durationOf(minutes: number): string {
  return minutes >= 120 && minutes % 60 === 0 ? `${minutes / 60} h` : `${minutes} min`
}
