import { detectionLimitOf } from '@rillmark/science/culture/detection-limit.ts'
import type { SampleKind } from '../entry/fields.ts'
import { type ConcentrationUnit, basisOf, convertConcentration, familyOf } from '../units/quantity.ts'
import type { ResultValue } from '../units/result-value.ts'
import type { BandBound, CriteriaBand, CriteriaScale, CriteriaSet } from './criteria-set.ts'

export interface ResultToJudge {
  readonly criteria: CriteriaSet
  readonly sampleKind: SampleKind
  readonly value: ResultValue
  /** species as the laboratory wrote it, if it did */
  readonly species?: string
  /** which scale of the set; without it, the first one for potable water */
  readonly scaleId?: string
}

export type Judgement =
  | {
      readonly kind: 'band'
      readonly band: CriteriaBand
      readonly scale: CriteriaScale
      readonly caveats: readonly string[]
    }
  | {
      readonly kind: 'undecided'
      readonly possible: readonly CriteriaBand[]
      readonly scale: CriteriaScale
      readonly reason: string
      readonly caveats: readonly string[]
    }
  | { readonly kind: 'not-applicable'; readonly reason: string }

/**
 * The band a result falls into, with its label, action and source; or the bands it could fall into; or why it can't be judged.
 *
 * Why: bands are stated for one unit, one kind of sample and certain species. A swab, a blank, a PCR result or an overgrown plate is
 * never squeezed into a band of culture counts in water, and a method too coarse for a limit cannot show that the limit was kept.
 * Not detected in V mL is read as "less than one per V"; a result below a limit lies somewhere from nothing up to that limit.
 */
export function judge(input: ResultToJudge): Judgement {
  const scale = scaleOf(input)
  if (scale === undefined) return { kind: 'not-applicable', reason: 'this criteria set has no result bands for it' }
  const reason =
    kindReason(input.sampleKind) ?? readabilityReason(input.value) ?? unitReason(input, scale) ?? speciesReason(input)
  if (reason !== undefined) return { kind: 'not-applicable', reason }
  const caveats = caveatsOf(input)
  const possible = bandsOver(scale, extentOf(input.value, scale.unit))
  const [band] = possible
  if (band !== undefined && possible.length === 1) return { kind: 'band', band, scale, caveats }
  return { kind: 'undecided', possible, scale, reason: undecidedReason(input.value), caveats }
}

/** From where to where the true value can lie, in the unit of the scale. `found` is whether the organism was found. */
interface Extent {
  readonly found: boolean
  readonly atLeast: number
  /** the value is at most (count) or less than (limit) this; infinite when nothing bounds it */
  readonly upTo: number
  readonly upToIncluded: boolean
}

function extentOf(value: ResultValue, unit: ConcentrationUnit): Extent {
  switch (value.kind) {
    case 'count': {
      const amount = inUnit(value.value, { from: value.unit, to: unit })
      return { found: true, atLeast: amount, upTo: amount, upToIncluded: true }
    }
    case 'above':
      return {
        found: true,
        atLeast: inUnit(value.limit, { from: value.unit, to: unit }),
        upTo: Number.POSITIVE_INFINITY,
        upToIncluded: true,
      }
    case 'detected':
      return { found: true, atLeast: 0, upTo: Number.POSITIVE_INFINITY, upToIncluded: true }
    case 'below':
      return {
        found: false,
        atLeast: 0,
        upTo: inUnit(value.limit, { from: value.unit, to: unit }),
        upToIncluded: false,
      }
    default:
      return { found: false, atLeast: 0, upTo: smallestVisible(value, unit), upToIncluded: false }
  }
}

/** The least concentration a "not detected" could have shown; 0 when the laboratory told neither limit nor volume. */
function smallestVisible(value: ResultValue, unit: ConcentrationUnit): number {
  if (value.kind !== 'not-detected') return 0
  if (value.limit !== undefined && value.unit !== undefined) return inUnit(value.limit, { from: value.unit, to: unit })
  if (value.volumeMl === undefined) return 0
  return inUnit(detectionLimitOf(value.volumeMl), { from: `${familyOf(unit)}/mL`, to: unit })
}

function bandsOver(scale: CriteriaScale, extent: Extent): CriteriaBand[] {
  const reachable = scale.bands.filter((band) => canReach(band.from, extent))
  const certain = reachable.filter((band) => isSure(band.from, extent))
  const lowest = certain.at(-1)
  return lowest === undefined ? reachable : reachable.slice(reachable.indexOf(lowest))
}

function canReach(bound: BandBound, extent: Extent): boolean {
  if (bound.kind === 'not-detected') return true
  if (bound.kind === 'detected') return extent.found
  if (bound.kind === 'exceeds' || !extent.upToIncluded) return extent.upTo > bound.value
  return extent.upTo >= bound.value
}

function isSure(bound: BandBound, extent: Extent): boolean {
  if (bound.kind === 'not-detected') return true
  if (bound.kind === 'detected') return extent.found
  // 'above' a limit is strictly above it, so its limit as lower end already exceeds a bound of the same value
  const strictlyAbove = extent.upTo === Number.POSITIVE_INFINITY && extent.atLeast > 0
  if (bound.kind === 'exceeds' && !strictlyAbove) return extent.atLeast > bound.value
  return extent.atLeast >= bound.value
}

function scaleOf({ criteria, scaleId }: ResultToJudge): CriteriaScale | undefined {
  if (scaleId !== undefined) return criteria.scales.find(({ id }) => id === scaleId)
  return criteria.scales.find(({ water }) => water === 'potable')
}

function kindReason(sampleKind: SampleKind): string | undefined {
  switch (sampleKind) {
    case 'first-flush-swab':
      return 'a swab with its few millilitres is presence or absence, not a concentration in water'
    case 'field-blank':
      return 'a field blank tests the handling, not the building'
    case 'readings-only':
      return 'only readings were taken here'
    default:
      return undefined
  }
}

function readabilityReason(value: ResultValue): string | undefined {
  switch (value.kind) {
    case 'overgrown':
      return 'the plate was overgrown: not a negative, sample again'
    case 'broken':
      return 'the container was broken: sample again'
    case 'not-tested':
      return `not tested: ${value.reason}`
    default:
      return undefined
  }
}

function unitReason(input: ResultToJudge, scale: CriteriaScale): string | undefined {
  const unit = 'unit' in input.value ? input.value.unit : undefined
  if (unit === undefined) return undefined
  if (basisOf(unit) === 'swab') return 'a result per swab is not a concentration in water'
  const family = familyOf(unit)
  if (!input.criteria.counts.families.includes(family) || family !== familyOf(scale.unit))
    return `reported in ${unit}, but these bands are stated in ${scale.unit}, and the two are not converted`
  return undefined
}

function speciesReason({ criteria, species, value }: ResultToJudge): string | undefined {
  if (criteria.counts.taxon === 'Legionella' || species === undefined) return undefined
  const found = value.kind === 'count' || value.kind === 'above' || value.kind === 'detected'
  if (!found || isPneumophila(species)) return undefined
  return `this set counts ${criteria.counts.taxon}; the laboratory reported ${species}`
}

function isPneumophila(species: string): boolean {
  return /pneumophila/i.test(species) && !/\b(non|not|other than|except)\b/i.test(species)
}

function caveatsOf({ criteria, species, sampleKind, value }: ResultToJudge): string[] {
  const caveats: string[] = []
  if (criteria.status !== 'verified') caveats.push('criteria from memory, verify before use')
  if (criteria.counts.taxon !== 'Legionella' && species === undefined)
    caveats.push(`species not reported: this set counts ${criteria.counts.taxon}`)
  if (sampleKind === 'heater-drain') caveats.push('drawn from a heater drain, not from an outlet')
  if (value.kind === 'not-detected' && value.volumeMl === undefined && value.limit === undefined)
    caveats.push('neither volume nor detection limit was reported')
  return caveats
}

function undecidedReason(value: ResultValue): string {
  if (value.kind === 'detected') return 'detected without a count'
  if (value.kind === 'above') return `more than ${value.limit} ${value.unit}: the count was not carried further`
  return 'the method is too coarse: what it can miss reaches into a higher band'
}

function inUnit(value: number, units: { from: ConcentrationUnit; to: ConcentrationUnit }): number {
  const converted = convertConcentration({ value, unit: units.from }, units.to)
  if (converted.kind === 'refused') throw new RangeError(`Cannot judge a result because ${converted.reason}`)
  return converted.value
}
