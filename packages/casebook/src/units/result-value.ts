import * as z from 'zod'
import { type ConcentrationUnit, basisOf, concentrationUnitSchema, convertConcentration, familyOf } from './quantity.ts'

const positive = z.number().positive()

/**
 * What a laboratory reported on one sample by one method, as the variant it is. "Nothing found", "less than the limit", "plate
 * overgrown" and "bottle broken" are different statements and none of them is the number 0, so a count is always above 0.
 */
export const resultValueSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('count'), value: positive, unit: concentrationUnitSchema }),
  z.strictObject({ kind: z.literal('below'), limit: positive, unit: concentrationUnitSchema }),
  z.strictObject({ kind: z.literal('above'), limit: positive, unit: concentrationUnitSchema }),
  z
    .strictObject({
      kind: z.literal('not-detected'),
      volumeMl: positive.optional(),
      limit: positive.optional(),
      unit: concentrationUnitSchema.optional(),
    })
    .refine((value) => (value.limit === undefined) === (value.unit === undefined), {
      path: ['unit'],
      message: 'a limit and its unit are given together or not at all',
    }),
  z.strictObject({ kind: z.literal('detected') }),
  z.strictObject({ kind: z.literal('overgrown') }),
  z.strictObject({ kind: z.literal('broken') }),
  z.strictObject({ kind: z.literal('not-tested'), reason: z.string().trim().min(1) }),
])

export type ResultValue = z.infer<typeof resultValueSchema>
export type ResultKind = ResultValue['kind']

/** Whether the laboratory found the organism. False also when nothing can be said: ask `isInterpretable` first. */
export function isDetected(value: ResultValue): boolean {
  return value.kind === 'count' || value.kind === 'above' || value.kind === 'detected'
}

/** Whether the result says anything about the water at all. An overgrown plate or a broken bottle asks for a repeat, it is no zero. */
export function isInterpretable(value: ResultValue): boolean {
  return value.kind !== 'overgrown' && value.kind !== 'broken' && value.kind !== 'not-tested'
}

/** The unit the result was reported in, if it has one. */
export function unitOf(value: ResultValue): ConcentrationUnit | undefined {
  return 'unit' in value ? value.unit : undefined
}

/** The detection or quantification limit of a result in CFU/L of water, or undefined if it has none in that family. */
export function limitCfuPerLOf(value: ResultValue): number | undefined {
  if (value.kind !== 'below' && value.kind !== 'above' && value.kind !== 'not-detected') return undefined
  return value.limit === undefined || value.unit === undefined ? undefined : inCfuPerL(value.limit, value.unit)
}

function inCfuPerL(value: number, unit: ConcentrationUnit): number | undefined {
  if (familyOf(unit) !== 'CFU' || basisOf(unit) !== 'water') return undefined
  const converted = convertConcentration({ value, unit }, 'CFU/L')
  return converted.kind === 'converted' ? converted.value : undefined
}
