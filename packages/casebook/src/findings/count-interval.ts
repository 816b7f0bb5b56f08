import { plateCount } from '@rillmark/science/culture/plate-count.ts'
import type { BodyOf } from '../entry/kinds.ts'
import { basisOf, type ConcentrationUnit, convertConcentration, familyOf, withoutNoise } from '../units/quantity.ts'
import { CONFIDENCE_LEVEL } from './confidence.ts'

export interface CountInterval {
  readonly lower: number
  readonly upper: number
  readonly colonies: number
}

/**
 * Limits of a culture count in its own unit, from counting alone (exact Poisson, 95 %), where the laboratory told the volume it
 * examined so that the number of colonies is known. Recovery and method lose more, and are not in it. Undefined otherwise: never guessed.
 * @source garwood-1936
 */
export function countInterval(
  result: Pick<BodyOf<'result.reported'>, 'value' | 'method' | 'volumeExaminedMl'>,
): CountInterval | undefined {
  const { value, method, volumeExaminedMl } = result
  if (value.kind !== 'count' || method !== 'culture' || volumeExaminedMl === undefined) return undefined
  if (familyOf(value.unit) !== 'CFU' || basisOf(value.unit) === 'swab') return undefined
  const perMl = convertConcentration({ value: value.value, unit: value.unit }, 'CFU/mL')
  if (perMl.kind !== 'converted') return undefined
  const colonies = withoutNoise(perMl.value * volumeExaminedMl)
  const plates = [{ colonies, platedMl: volumeExaminedMl, concentrationFactor: 1 }]
  const { lower, upper } = plateCount({ plates, level: CONFIDENCE_LEVEL }).interval
  if (upper === undefined) return undefined
  return { lower: inUnit(lower, value.unit), upper: inUnit(upper, value.unit), colonies }
}

function inUnit(cfuPerL: number, unit: ConcentrationUnit): number {
  const converted = convertConcentration({ value: cfuPerL, unit: 'CFU/L' }, unit)
  if (converted.kind === 'refused') throw new RangeError(`Cannot tell limits because ${converted.reason}`)
  return converted.value
}
