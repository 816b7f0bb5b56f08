import { type Middle, middleOf, type Placed } from '@rillmark/science/censored/middle-value.ts'
import { type ConcentrationUnit, convertConcentration } from '../units/quantity.ts'
import type { SampleRow } from './sample-rows.ts'

export interface CountSummary {
  readonly unit: ConcentrationUnit
  readonly samples: number
  /** values below a limit, not detected, or looking like half of a limit */
  readonly below: number
  readonly median: Middle | undefined
  readonly max: number | undefined
  /** results that cannot be expressed in this unit, or not at all: counted, never converted by force */
  readonly leftOut: number
}

/** The counts of some samples by one method in one unit, those below a limit at their limit; what has no meaning in that unit is left out. */
export function countReadings(
  rows: readonly SampleRow[],
  { method, unit }: { method: string; unit: ConcentrationUnit },
): Placed[] {
  return rows
    .flatMap(({ results }) => results)
    .filter(({ entry }) => entry.body.method === method)
    .flatMap(({ entry }) => positionOf(entry.body.value, unit) ?? [])
}

/**
 * How many, how many below the limit, middle and largest of the counts of some samples, in one unit. The middle is told as closely as
 * the limits let it be; a value that looks like half of a limit stands where it was written. Nothing is filled in.
 */
export function countSummary(
  rows: readonly SampleRow[],
  { method, unit }: { method: string; unit: ConcentrationUnit },
): CountSummary {
  const results = rows.flatMap(({ results }) => results).filter(({ entry }) => entry.body.method === method)
  const placed = results.map(({ entry, outcome }) => ({
    position: positionOf(entry.body.value, unit),
    isBelow: outcome === 'negative',
  }))
  const usable = placed
    .flatMap(({ position, isBelow }) => (position === undefined ? [] : [{ ...position, isBelow }]))
    .sort((a, b) => a.value - b.value || Number(b.limit) - Number(a.limit))
  const largest = usable.at(-1)
  return {
    unit,
    samples: usable.length,
    below: usable.filter(({ isBelow }) => isBelow).length,
    median: middleOf(usable),
    max: largest === undefined || largest.limit ? undefined : largest.value,
    leftOut: results.length - usable.length,
  }
}

function positionOf(
  value: SampleRow['results'][number]['entry']['body']['value'],
  unit: ConcentrationUnit,
): Placed | undefined {
  const given =
    value.kind === 'count'
      ? value.value
      : value.kind === 'below' || value.kind === 'not-detected'
        ? value.limit
        : undefined
  if (given === undefined || !('unit' in value) || value.unit === undefined) return undefined
  const converted = convertConcentration({ value: given, unit: value.unit }, unit)
  return converted.kind === 'converted' ? { value: converted.value, limit: value.kind !== 'count' } : undefined
}
