import {
  type OtherUnit,
  type RecordUnit,
  RECORD_UNITS,
  decimalsOf,
  fromOtherUnit,
  inOtherUnitAsGiven,
  isOtherUnit,
  otherUnitOf,
  plainText,
} from '@rillmark/casebook/units/scales.ts'
import { readTypedNumber, type TypedNumber } from '../kit/typed-number.ts'

export type AnyUnit = RecordUnit | OtherUnit

const ALL_UNITS: readonly AnyUnit[] = RECORD_UNITS.flatMap((unit) => [unit, otherUnitOf(unit)])

/** What was typed and, where it is not the field's own, the unit it was typed in: a draft keeps both, such as `140 °F`. */
export interface TypedIn {
  readonly text: string
  readonly unit: AnyUnit | undefined
}

/** A draft taken apart. */
export function typedIn(draft: string): TypedIn {
  const unit = ALL_UNITS.find((each) => draft.endsWith(` ${each}`))
  return unit === undefined ? { text: draft, unit } : { text: draft.slice(0, -unit.length - 1), unit }
}

/** The number a draft stands for, in the unit of the record: `140 °F` is 60. */
export function readTypedQuantity(draft: string): TypedNumber {
  const { text, unit } = typedIn(draft)
  const read = readTypedNumber(text)
  if (read.kind !== 'number' || unit === undefined || !isOtherUnit(unit)) return read
  const value = fromOtherUnit({ value: read.value, decimals: Math.min(read.decimals, MOST_DECIMALS), unit })
  return { kind: 'number', value, decimals: decimalsOf(value) }
}

const MOST_DECIMALS = 9

/** The draft of what is typed while a field shows a unit. The field's own unit is left unsaid where nobody prefers another. */
export function draftOfTyped(text: string, { shown, silent }: { shown: AnyUnit; silent: boolean }): string {
  if (text.trim() === '') return ''
  return silent && typedIn(text).unit === undefined ? text : `${text} ${shown}`
}

/** How a draft reads in a unit: as typed in the unit it was typed in, converted in the other, as it stands where it is no number. */
export function textIn(draft: string, { unit, shown }: { unit: RecordUnit; shown: AnyUnit }): string {
  const typed = typedIn(draft)
  if ((typed.unit ?? unit) === shown) return typed.text
  const read = readTypedQuantity(draft)
  if (read.kind !== 'number') return typed.text
  return isOtherUnit(shown) ? inOtherUnitAsGiven(read.value, shown) : plainText(read.value)
}
