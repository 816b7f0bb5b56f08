import {
  FAHRENHEIT,
  KG_PER_POUND,
  LITRES_PER_US_GALLON,
  METRES_PER_FOOT,
  MM_PER_INCH,
} from '@rillmark/science/units/definitions.ts'
import { type DisplayUnits, METRIC_UNITS } from './display-units.ts'
import { withoutNoise } from './quantity.ts'

/**
 * A unit with another beside it: record = (other − zero) × perOther. A difference of temperatures has no zero of its own: 4 K are 7.2
 * degrees of Fahrenheit's scale, not 39.2.
 */
interface Scale {
  readonly record: string
  readonly other: string
  readonly perOther: number
  readonly zero: number
  readonly by: Exclude<keyof DisplayUnits, 'count'>
  /** decimal places kept in the record beyond those that were typed */
  readonly guard: number
}

const GUARD = 4
/** A thermometer's last place is coarse, and two places more keep 60.56 °C readable. */
const GUARD_TEMPERATURE = 2
const PER_F = 1 / FAHRENHEIT.degreesPerC

const SCALES = [
  {
    record: '°C',
    other: '°F',
    perOther: PER_F,
    zero: FAHRENHEIT.atZeroC,
    by: 'temperature',
    guard: GUARD_TEMPERATURE,
  },
  { record: 'K', other: '°F difference', perOther: PER_F, zero: 0, by: 'temperature', guard: GUARD_TEMPERATURE },
  { record: 'L', other: 'US gal', perOther: LITRES_PER_US_GALLON, zero: 0, by: 'volume', guard: GUARD },
  { record: 'L/min', other: 'US gal/min', perOther: LITRES_PER_US_GALLON, zero: 0, by: 'volume', guard: GUARD },
  { record: 'mm', other: 'in', perOther: MM_PER_INCH, zero: 0, by: 'bore', guard: GUARD },
  { record: 'm', other: 'ft', perOther: METRES_PER_FOOT, zero: 0, by: 'length', guard: GUARD },
  { record: 'm/s', other: 'ft/s', perOther: METRES_PER_FOOT, zero: 0, by: 'length', guard: GUARD },
  { record: 'kg', other: 'lb', perOther: KG_PER_POUND, zero: 0, by: 'mass', guard: GUARD },
] as const satisfies readonly Scale[]

/** A unit of the record that has another beside it. */
export type RecordUnit = (typeof SCALES)[number]['record']
/** The other unit. */
export type OtherUnit = (typeof SCALES)[number]['other']

export const RECORD_UNITS: readonly RecordUnit[] = SCALES.map(({ record }) => record)

const scaleOf = (unit: string): Scale | undefined => SCALES.find(({ record }) => record === unit)
const scaleOfOther = (unit: OtherUnit): Scale => SCALES.find(({ other }) => other === unit) ?? SCALES[0]

export function isRecordUnit(unit: string): unit is RecordUnit {
  return scaleOf(unit) !== undefined
}

export function isOtherUnit(unit: string): unit is OtherUnit {
  return SCALES.some(({ other }) => other === unit)
}

/** The unit beside one of the record. */
export function otherUnitOf(unit: RecordUnit): OtherUnit {
  return (SCALES.find(({ record }) => record === unit) ?? SCALES[0]).other
}

/** The unit of the record or the other one, as the person prefers. */
export function preferredUnit(unit: RecordUnit, units: DisplayUnits): RecordUnit | OtherUnit {
  const { by, record } = SCALES.find((scale) => scale.record === unit) ?? SCALES[0]
  return units[by] === METRIC_UNITS[by] ? record : otherUnitOf(unit)
}

/** A value of the record in the other unit, unrounded: for what was reckoned, to be rounded once. */
export function inOtherUnit(value: number, unit: OtherUnit): number {
  const { perOther, zero } = scaleOfOther(unit)
  return value / perOther + zero
}

/**
 * What was typed in the other unit (with its decimals), as the record keeps it: a few places more than were typed, so that it comes back
 * as it was typed: 140 °F is 60 °C and 141 °F is 60.56 °C, which `inOtherUnitAsGiven` shows as 141 again.
 * @throws RangeError when the value is not finite or the decimals are not a whole number from 0 to 15
 */
export function fromOtherUnit(typed: { value: number; decimals: number; unit: OtherUnit }): number {
  requireNumber(typed)
  const { perOther, zero, guard } = scaleOfOther(typed.unit)
  const lastPlace = perOther * 10 ** -(typed.decimals + guard)
  const places = Math.max(0, Math.ceil(-Math.log10(2 * lastPlace) - 1e-9))
  return withoutNegativeZero(Number(withoutNoise((typed.value - zero) * perOther).toFixed(Math.min(places, 15))))
}

/** As precise as most people ever give a size or a volume. */
const MOST_DECIMALS = 6
/** Longer tails were reckoned, not given. */
const MOST_GIVEN_DECIMALS = 10
const RECKONED_DIGITS = 6

/**
 * A value given in the unit of the record, in the other unit, with the digits it supports.
 *
 * What was typed in the other unit comes back as typed (25.4 mm is 1 in); what was given in the unit of the record has a last place no
 * coarser than its own (25 mm is 0.98 in), so that reading it back gives the given value.
 */
export function inOtherUnitAsGiven(value: number, unit: OtherUnit): string {
  const decimals = decimalsOf(value)
  requireNumber({ value, decimals })
  const { perOther, record } = scaleOfOther(unit)
  const exact = withoutNoise(inOtherUnit(value, unit))
  if (decimals > MOST_GIVEN_DECIMALS) return plainText(Number(exact.toPrecision(RECKONED_DIGITS)))
  const finest = decimals + Math.max(0, Math.ceil(Math.log10(perOther) - 1e-9))
  const warm = record === '°C' || record === 'K'
  // numbers lose a zero at their end: 61 may have been 61.0, the last place of a thermometer
  const supported = warm ? Math.max(1, finest) : finest
  const tried = Array.from({ length: (warm ? supported : Math.max(supported, MOST_DECIMALS)) + 1 }, (_, at) => at)
  const typed = tried.find(
    (places) => fromOtherUnit({ value: Number(exact.toFixed(places)), decimals: places, unit }) === value,
  )
  if (typed !== undefined) return withReal(exact.toFixed(typed))
  return withReal(shortest(exact.toFixed(supported), (text) => readsBack(text, { value, decimals, unit })))
}

/** Without the zeros at its end, as far as it still says enough. */
function shortest(text: string, enough: (shorter: string) => boolean): string {
  const shorter = text.includes('.') ? text.replace(/\.?0$/, '') : text
  return shorter !== text && enough(shorter) ? shortest(shorter, enough) : text
}

function readsBack(text: string, of: { value: number; decimals: number; unit: OtherUnit }): boolean {
  const places = text.split('.')[1]?.length ?? 0
  const back = fromOtherUnit({ value: Number(text), decimals: places, unit: of.unit })
  return Number(back.toFixed(of.decimals)) === of.value
}

/** A minus sign as it is printed, none before nothing. */
const withReal = (text: string): string => (Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−'))

/** Digits without an exponent, the noise of binary arithmetic, zeros at the end, or a minus before nothing. */
export function plainText(value: number): string {
  const clean = withoutNegativeZero(withoutNoise(value))
  const text = /e-/.test(String(clean)) ? clean.toFixed(15).replace(/0+$/, '') : String(clean)
  return text.replace('-', '−')
}

/** The decimal places a number was given with, as far as a number tells. */
export function decimalsOf(value: number): number {
  return /\.(\d+)/.exec(plainText(value))?.[1]?.length ?? 0
}

const withoutNegativeZero = (value: number): number => (value === 0 ? 0 : value)

function requireNumber({ value, decimals }: { value: number; decimals: number }): void {
  if (!Number.isFinite(value))
    throw new RangeError(`Cannot show a quantity because it must be a finite number: got ${value}`)
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 15)
    throw new RangeError(
      `Cannot show a quantity because its decimals must be a whole number from 0 to 15: got ${decimals}`,
    )
}
