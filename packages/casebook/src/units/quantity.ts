import * as z from 'zod'

/** What was counted: colonies, a most probable number, or genome units. None of them stands for another. */
export type CountFamily = 'CFU' | 'MPN' | 'GU'

/** What the count is expressed per: a volume of water, or one whole swab (which has no volume). */
export type CountBasis = 'water' | 'swab'

export const CONCENTRATION_UNITS = [
  'CFU/mL',
  'CFU/100 mL',
  'CFU/L',
  'MPN/mL',
  'MPN/100 mL',
  'MPN/L',
  'GU/mL',
  'GU/100 mL',
  'GU/L',
  'CFU/swab',
  'MPN/swab',
  'GU/swab',
] as const

export const concentrationUnitSchema = z.enum(CONCENTRATION_UNITS)
export type ConcentrationUnit = z.infer<typeof concentrationUnitSchema>

export interface Concentration {
  readonly value: number
  readonly unit: ConcentrationUnit
}

export type ConcentrationConversion =
  | { readonly kind: 'converted'; readonly value: number; readonly unit: ConcentrationUnit }
  | { readonly kind: 'refused'; readonly reason: string }

const ML_PER_BASIS = { mL: 1, '100 mL': 100, L: 1000, swab: 1 } as const

/**
 * Converts a concentration to another unit of the same family (colonies to colonies, genome units to genome units).
 *
 * Why: a count per millilitre read as a count per litre is wrong by a factor of a thousand, and a PCR result or a swab is not a
 * culture count at all, so a conversion that has no meaning is refused with its reason instead of being made.
 * @param concentration value and unit as reported.
 * @param to unit wanted.
 * @throws RangeError when the value is not a finite number of at least 0.
 */
export function convertConcentration(concentration: Concentration, to: ConcentrationUnit): ConcentrationConversion {
  requireCount(concentration.value)
  const reason = refusal(concentration.unit, to)
  if (reason !== undefined) return { kind: 'refused', reason }
  const perMl = concentration.value / mlOf(concentration.unit)
  const value = concentration.unit === to ? concentration.value : withoutNoise(perMl * mlOf(to))
  return { kind: 'converted', value, unit: to }
}

/** The family a unit counts in. */
export function familyOf(unit: ConcentrationUnit): CountFamily {
  if (unit.startsWith('CFU/')) return 'CFU'
  return unit.startsWith('MPN/') ? 'MPN' : 'GU'
}

/** Whether a unit is per volume of water or per swab. */
export function basisOf(unit: ConcentrationUnit): CountBasis {
  return unit.endsWith('/swab') ? 'swab' : 'water'
}

/** Drops the noise of binary arithmetic: a double holds 15 decimal digits for certain, so the 16th and later are not information. */
export function withoutNoise(value: number): number {
  return Number(value.toPrecision(15))
}

function refusal(from: ConcentrationUnit, to: ConcentrationUnit): string | undefined {
  if (basisOf(from) !== basisOf(to)) return `a swab has no water volume, so ${from} and ${to} cannot be converted`
  const [a, b] = [familyOf(from), familyOf(to)]
  if (a !== b) return `${a} and ${b} count different things, so ${from} and ${to} cannot be converted`
  return undefined
}

function mlOf(unit: ConcentrationUnit): number {
  const basis = unit.slice(unit.indexOf('/') + 1)
  return ML_PER_BASIS[basis as keyof typeof ML_PER_BASIS]
}

function requireCount(value: number): void {
  if (!Number.isFinite(value) || value < 0)
    throw new RangeError(
      `Cannot convert a concentration because it must be a finite number of at least 0: got ${value}`,
    )
}
