import * as z from 'zod'
import {
  type ConcentrationUnit,
  basisOf,
  concentrationUnitSchema,
  convertConcentration,
  familyOf,
  withoutNoise,
} from './quantity.ts'
import type { ResultValue } from './result-value.ts'

/** How one person likes to read quantities. The record never changes with it. */
export const displayPreferencesSchema = z.strictObject({
  temperature: z.enum(['°C', '°F']).default('°C'),
  volume: z.enum(['L', 'US gal']).default('L'),
  bore: z.enum(['mm', 'in']).default('mm'),
  length: z.enum(['m', 'ft']).default('m'),
  mass: z.enum(['kg', 'lb']).default('kg'),
  concentrationPer: z.enum(['mL', '100 mL', 'L', 'as reported']).default('as reported'),
})

export type DisplayPreferences = z.infer<typeof displayPreferencesSchema>
export type DisplayedQuantity = Exclude<keyof DisplayPreferences, 'concentrationPer'>
export type DisplayUnit = DisplayPreferences[DisplayedQuantity]

export const DEFAULT_PREFERENCES: DisplayPreferences = displayPreferencesSchema.parse({})

/** A measured value in the unit of the record (°C, L, mm, m, kg) with the decimals it was given with: 60.0 has one. */
export interface Measured {
  readonly quantity: DisplayedQuantity
  readonly value: number
  readonly decimals: number
}

export interface Displayed {
  readonly value: number
  readonly decimals: number
  readonly unit: DisplayUnit
  /** value and unit in words, decimal point, no grouping */
  readonly text: string
}

/**
 * A measured value in the unit a person prefers, rounded to the least number of decimals that loses nothing of the precision given.
 *
 * Why: 60.0 °C shown as 140 °F would claim less than was measured, and 15.00000001 gal more. With decimals chosen so that the last
 * place shown is no coarser than the last place given, reading the shown value back gives the given one.
 * @throws RangeError when the value is not finite or the decimals are not a whole number from 0 to 9.
 * @example display({ quantity: 'temperature', value: 60, decimals: 1 }, preferences).text // '140.0 °F'
 */
export function display(measured: Measured, preferences: DisplayPreferences): Displayed {
  requireMeasured(measured)
  const unit = preferences[measured.quantity]
  const { factor, offset } = SCALES[unit]
  const decimals = measured.decimals + Math.max(0, Math.ceil(-Math.log10(factor) - 1e-9))
  const text = fixed(measured.value * factor + offset, decimals)
  return { value: Number(text), decimals, unit, text: `${text} ${unit}` }
}

/**
 * The record's value (°C, L, mm, m, kg) of something typed in a person's unit, rounded to the decimals that the typed ones support.
 * @throws RangeError when the value is not finite or the decimals are not a whole number from 0 to 9.
 */
export function fromDisplayed(typed: {
  quantity: DisplayedQuantity
  value: number
  decimals: number
  unit: DisplayUnit
}): Measured {
  requireMeasured(typed)
  const { factor, offset } = SCALES[typed.unit]
  const decimals = typed.decimals + Math.max(0, Math.ceil(Math.log10(factor) - 1e-9))
  return { quantity: typed.quantity, value: Number(fixed((typed.value - offset) / factor, decimals)), decimals }
}

/** A concentration in the volume a person prefers, within its own family; a swab, or "as reported", stays as it is. */
export function displayConcentration(
  value: number,
  options: { unit: ConcentrationUnit; preferences: DisplayPreferences },
): string {
  const { unit, preferences } = options
  if (preferences.concentrationPer === 'as reported' || basisOf(unit) === 'swab') return `${plain(value)} ${unit}`
  const to = concentrationUnitSchema.parse(`${familyOf(unit)}/${preferences.concentrationPer}`)
  const converted = convertConcentration({ value, unit }, to)
  return converted.kind === 'converted' ? `${plain(converted.value)} ${to}` : `${plain(value)} ${unit}`
}

/** A laboratory's value in words: the variant it is, never a bare zero. */
export function displayResult(value: ResultValue, preferences: DisplayPreferences): string {
  switch (value.kind) {
    case 'count':
      return displayConcentration(value.value, { unit: value.unit, preferences })
    case 'below':
      return `less than ${displayConcentration(value.limit, { unit: value.unit, preferences })}`
    case 'above':
      return `more than ${displayConcentration(value.limit, { unit: value.unit, preferences })}`
    case 'not-detected':
      return notDetected(value, preferences)
    case 'detected':
      return 'detected, not counted'
    case 'overgrown':
      return 'overgrown, not interpretable'
    case 'broken':
      return 'container broken'
    case 'not-tested':
      return `not tested: ${value.reason}`
  }
}

/**
 * Display unit = record unit × factor + offset. Exact by definition: 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 lb = 0.45359237 kg,
 * 1 US gal = 231 cubic inches = 3.785411784 L, °F = 1.8 °C + 32.
 * @source nist-sp-811
 */
const SCALES: Readonly<Record<DisplayUnit, { factor: number; offset: number }>> = {
  '°C': { factor: 1, offset: 0 },
  '°F': { factor: 1.8, offset: 32 },
  L: { factor: 1, offset: 0 },
  'US gal': { factor: 1 / 3.785411784, offset: 0 },
  mm: { factor: 1, offset: 0 },
  in: { factor: 1 / 25.4, offset: 0 },
  m: { factor: 1, offset: 0 },
  ft: { factor: 1 / 0.3048, offset: 0 },
  kg: { factor: 1, offset: 0 },
  lb: { factor: 1 / 0.45359237, offset: 0 },
}

function notDetected(value: Extract<ResultValue, { kind: 'not-detected' }>, preferences: DisplayPreferences): string {
  if (value.volumeMl !== undefined) return `not detected in ${plain(value.volumeMl)} mL`
  if (value.limit === undefined || value.unit === undefined) return 'not detected, volume not told'
  return `not detected, limit ${displayConcentration(value.limit, { unit: value.unit, preferences })}`
}

/** Digits without an exponent or the noise of binary arithmetic. */
function plain(value: number): string {
  const clean = withoutNoise(value)
  return clean >= 1e-6 || clean === 0 ? String(clean) : clean.toFixed(15).replace(/0+$/, '')
}

function fixed(value: number, decimals: number): string {
  const text = withoutNoise(value).toFixed(decimals)
  return Number(text) === 0 ? text.replace('-', '') : text
}

function requireMeasured({ value, decimals }: { value: number; decimals: number }): void {
  if (!Number.isFinite(value))
    throw new RangeError(`Cannot show a quantity because it must be a finite number: got ${value}`)
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 9)
    throw new RangeError(
      `Cannot show a quantity because its decimals must be a whole number from 0 to 9: got ${decimals}`,
    )
}
