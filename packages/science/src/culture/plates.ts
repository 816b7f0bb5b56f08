import reporting from '@rillmark/reference/plate-count/reporting.json' with { type: 'json' }
import { poissonLimits } from '../distributions/poisson-limits.ts'
import { wilsonInterval } from '../proportions/proportion.ts'
import { detectionLimitOf } from './detection-limit.ts'
import { joinedConcentration } from './joined-concentration.ts'

export interface Plate {
  colonies: number
  platedMl: number
  /** Millilitres of the sample in a millilitre plated, before any treatment. */
  concentrationFactor: number
  treatment?: Treatment | undefined
  /** Millilitres of what was treated in a millilitre plated. */
  treatmentFactor?: number | undefined
  /** Colonies picked for confirmation; all stand confirmed where left out. */
  confirmedOf?: number | undefined
  confirmed?: number | undefined
  /** By Legionella: `colonies` is the least number there are. By others: the plate tells nothing. */
  overgrown?: 'by-legionella' | 'by-others' | undefined
}

export const TREATMENTS = ['untreated', 'heat', 'acid', 'heat-and-acid'] as const
export type Treatment = (typeof TREATMENTS)[number]

export interface PlatesFigures {
  cfuPerL: number
  /** `upper` is left out where no plate could be counted. */
  interval: { lower: number; upper?: number | undefined }
  detectionLimitCfuPerL: number
  qualifier: string
}

const ML_PER_L = 1000

/**
 * What plates treated alike say about the sample (CFU/L), or nothing where others overgrew them all.
 *
 * Plates that could be counted are pooled by the sample they stand for. Plates with more Legionella than could be counted add how likely so
 * many or more are (most likely concentration, likelihood-ratio limits); alone they only say "at least".
 *
 * @param plates at least 1, treated alike
 * @param level confidence level of the interval
 * @source iso-11731-2017
 * @source garwood-1936
 * @source haas-heller-1988
 * @source zou-donner-2008
 */
export function figuresOfPlates(plates: readonly Plate[], level: number): PlatesFigures | undefined {
  const counted = plates.filter(({ overgrown }) => overgrown === undefined)
  const tooMany = plates.filter(({ overgrown }) => overgrown === 'by-legionella')
  if (counted.length === 0) return leastFigures(tooMany, level)
  const pooled = pooledFigures(counted, level)
  return tooMany.length === 0 ? pooled : joinedFigures({ counted, tooMany, pooled }, level)
}

/** What plates with more than could be counted say by themselves: the one that says most. */
function leastFigures(tooMany: readonly Plate[], level: number): PlatesFigures | undefined {
  const most = tooMany
    .map((plate) => pooledFigures([plate], level))
    .toSorted((a, b) => b.cfuPerL - a.cfuPerL)
    .at(0)
  return most && { ...most, interval: { lower: most.interval.lower }, qualifier: 'greater-than' }
}

function joinedFigures(
  { counted, tooMany, pooled }: { counted: readonly Plate[]; tooMany: readonly Plate[]; pooled: PlatesFigures },
  level: number,
): PlatesFigures {
  const { estimate, lower, upper } = joinedConcentration({
    colonies: counted.reduce((sum, plate) => sum + plate.colonies * confirmedShare(plate), 0),
    amount: counted.reduce((sum, plate) => sum + representedMl(plate), 0) / ML_PER_L,
    atLeast: tooMany.map((plate) => ({
      colonies: plate.colonies * confirmedShare(plate),
      amount: representedMl(plate) / ML_PER_L,
    })),
    level,
  })
  const picked = [...counted, ...tooMany].filter(isPartlyPicked)
  const of = picked.reduce((sum, { confirmedOf = 0 }) => sum + confirmedOf, 0)
  if (of === 0 || estimate === 0)
    return { ...pooled, cfuPerL: estimate, interval: { lower, upper }, qualifier: reporting.crowdedQualifier }
  const share = picked.reduce((sum, { confirmed = 0 }) => sum + confirmed, 0) / of
  const part = wilsonInterval({ estimate: share, total: of, level })
  /** The limits of the share, relative to it; a share of none still leaves the limits of the count. */
  const [least, most] = share === 0 ? [1, 1] : [part.lower / share, part.upper / share]
  return {
    ...pooled,
    cfuPerL: estimate,
    interval: {
      lower: Math.max(0, estimate - Math.hypot(estimate - lower, estimate * (1 - least))),
      upper: estimate + Math.hypot(upper - estimate, estimate * (most - 1)),
    },
    qualifier: reporting.crowdedQualifier,
  }
}

function pooledFigures(plates: readonly Plate[], level: number): PlatesFigures & { interval: Limits } {
  const representedL = plates.reduce((sum, plate) => sum + representedMl(plate), 0) / ML_PER_L
  const confirmedColonies = plates.reduce((sum, plate) => sum + plate.colonies * confirmedShare(plate), 0)
  const limits = countLimits(plates, { confirmedColonies, level })
  return {
    cfuPerL: confirmedColonies / representedL,
    interval: { lower: limits.lower / representedL, upper: limits.upper / representedL },
    detectionLimitCfuPerL: detectionLimitOf(representedL),
    qualifier: qualifierOf(plates, confirmedColonies),
  }
}

interface Limits {
  lower: number
  upper: number
}

/**
 * Millilitres of the sample a plate stands for.
 *
 * @param plate one plate
 * @source none: a product of the factors as defined
 * @example
 * representedMl({ colonies: 0, platedMl: 0.5, concentrationFactor: 100 }) // => 50
 */
export function representedMl({ platedMl, concentrationFactor, treatmentFactor = 1 }: Plate): number {
  return platedMl * concentrationFactor * treatmentFactor
}

function confirmedShare({ confirmedOf = 0, confirmed = 0 }: Plate): number {
  return confirmedOf === 0 ? 1 : confirmed / confirmedOf
}

function isPartlyPicked({ colonies, confirmedOf = 0 }: Plate): boolean {
  return confirmedOf > 0 && confirmedOf < colonies
}

/** Limits of the number of confirmed colonies on all plates together. */
function countLimits(
  plates: readonly Plate[],
  { confirmedColonies, level }: { confirmedColonies: number; level: number },
): Limits {
  const partly = plates.filter(isPartlyPicked)
  if (partly.length === 0) return poissonLimits(confirmedColonies, level)
  const counted = plates.reduce(
    (sum, plate) => sum + (partly.includes(plate) ? plate.colonies : plate.colonies * confirmedShare(plate)),
    0,
  )
  const picked = partly.reduce((sum, { confirmedOf = 0 }) => sum + confirmedOf, 0)
  const share = confirmedColonies / counted
  const count = poissonLimits(counted, level)
  const part = wilsonInterval({ estimate: share, total: picked, level })
  const below = Math.hypot(share * (counted - count.lower), counted * (share - part.lower))
  const above = Math.hypot(share * (count.upper - counted), counted * (part.upper - share))
  const hadAllBeenPicked = poissonLimits(confirmedColonies, level)
  return {
    lower: Math.max(0, Math.min(confirmedColonies - below, hadAllBeenPicked.lower)),
    upper: Math.max(confirmedColonies + above, hadAllBeenPicked.upper),
  }
}

function qualifierOf(plates: readonly Plate[], colonies: number): string {
  const whole = colonies > 0 ? Math.max(1, colonies) : 0
  const byCount = reporting.steps.findLast(({ fromColonies }) => whole >= fromColonies)?.qualifier ?? 'not-detected'
  const crowded = plates.some((plate) => plate.colonies > reporting.countableUpTo)
  return crowded && colonies > 0 ? reporting.crowdedQualifier : byCount
}

/**
 * What contradicts itself in a plate: the field, and what it should be.
 *
 * @param plate one plate
 * @source none: it computes nothing of the trade
 * @example
 * plateProblems({ colonies: 2, platedMl: 1, concentrationFactor: 1, confirmedOf: 3, confirmed: 1 })[0].field // => "confirmedOf"
 */
export function plateProblems(plate: Plate): { field: keyof Plate; expected: string }[] {
  const { colonies, overgrown } = plate
  if (overgrown === 'by-others') return colonies === 0 ? [] : [countOnLostPlate]
  if (overgrown === 'by-legionella' && colonies === 0) return [noCountOnCrowdedPlate]
  return confirmationProblems(plate)
}

const countOnLostPlate = {
  field: 'colonies' as const,
  expected: '0, as nothing can be counted where others overgrew the plate',
}
const noCountOnCrowdedPlate = {
  field: 'colonies' as const,
  expected: 'at least 1: the least number there are, such as the most the laboratory counts',
}

function confirmationProblems({ colonies, confirmedOf, confirmed }: Plate): { field: keyof Plate; expected: string }[] {
  if ((confirmedOf === undefined) !== (confirmed === undefined)) {
    return [
      {
        field: confirmed === undefined ? 'confirmed' : 'confirmedOf',
        expected: 'given together with the other of the pair',
      },
    ]
  }
  if (confirmedOf === undefined || confirmed === undefined) return []
  const problems: { field: keyof Plate; expected: string }[] = []
  if (confirmedOf > colonies) problems.push({ field: 'confirmedOf', expected: `at most the colonies, ${colonies}` })
  if (confirmedOf === 0 && colonies > 0) problems.push({ field: 'confirmedOf', expected: 'at least 1, or left out' })
  if (confirmed > confirmedOf) problems.push({ field: 'confirmed', expected: `at most confirmedOf, ${confirmedOf}` })
  return problems
}
