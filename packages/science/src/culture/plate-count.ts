import reporting from '@rillmark/reference/plate-count/reporting.json' with { type: 'json' }
import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, intervalField, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { type Interval, poissonLimits } from '../distributions/poisson-limits.ts'
import { wilsonInterval } from '../proportions/proportion.ts'
import { detectionLimitOf } from './detection-limit.ts'

export interface Plate {
  colonies: number
  platedMl: number
  /** Millilitres of the sample in a millilitre plated. */
  concentrationFactor: number
  /** Colonies picked for confirmation; all stand confirmed where left out. */
  confirmedOf?: number | undefined
  confirmed?: number | undefined
}

export interface PlateCountInput {
  plates: Plate[]
  level: number
}

export interface PlateCount {
  cfuPerL: number
  interval: Interval
  detectionLimitCfuPerL: number
  qualifier: string
  level: number
}

const ML_PER_L = 1000

/**
 * The concentration in the sample (CFU/L) from colonies on one or several plates, with its interval.
 * Wanted because laboratories report a bare number, and five colonies are a wide one.
 *
 * cfuPerL = 1000 · Σ(colonies · confirmed / confirmedOf) / Σ(platedMl · concentrationFactor): plates are pooled by
 * the sample they represent. Every colony picked (or none needed): exact Poisson limits of the count. Some picked:
 * the limits of the count and of the confirmed share are joined by recovered variances,
 * and never narrower than had every colony been picked.
 *
 * Special cases: no colonies gives 0 with qualifier `not-detected` and an upper limit above 0.
 *
 * @param input plates (at least 1: colonies, mL plated, concentration factor, picked and confirmed), level
 * @throws RangeError when confirmed exceeds picked, or picked exceeds colonies
 * @source iso-11731-2017
 * @source garwood-1936
 * @source zou-donner-2008
 * @example
 * plateCount({ plates: [{ colonies: 23, platedMl: 0.1, concentrationFactor: 100, confirmedOf: 5, confirmed: 4 }], level: 0.95 }).cfuPerL // => 1840
 */
export function plateCount({ plates, level }: PlateCountInput): PlateCount {
  const problem = plates.flatMap(plateProblems)[0]
  if (problem !== undefined)
    throw new RangeError(`Cannot count a plate because ${problem.field} must be ${problem.expected}`)
  const representedL = plates.reduce((sum, plate) => sum + plate.platedMl * plate.concentrationFactor, 0) / ML_PER_L
  const confirmedColonies = plates.reduce((sum, plate) => sum + plate.colonies * confirmedShare(plate), 0)
  const limits = countLimits(plates, { confirmedColonies, level })
  return {
    cfuPerL: confirmedColonies / representedL,
    interval: { lower: limits.lower / representedL, upper: limits.upper / representedL },
    detectionLimitCfuPerL: detectionLimitOf(representedL),
    qualifier: qualifierOf(confirmedColonies),
    level,
  }
}

function confirmedShare({ confirmedOf = 0, confirmed = 0 }: Plate): number {
  return confirmedOf === 0 ? 1 : confirmed / confirmedOf
}

interface CountInput {
  confirmedColonies: number
  level: number
}

/** Limits of the number of confirmed colonies on all plates together. */
function countLimits(plates: Plate[], { confirmedColonies, level }: CountInput): Interval {
  const partly = plates.filter(({ colonies, confirmedOf = 0 }) => confirmedOf > 0 && confirmedOf < colonies)
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

function qualifierOf(colonies: number): string {
  const whole = colonies > 0 ? Math.max(1, colonies) : 0
  return reporting.steps.findLast(({ fromColonies }) => whole >= fromColonies)?.qualifier ?? 'not-detected'
}

function plateProblems({ colonies, confirmedOf, confirmed }: Plate): { field: string; expected: string }[] {
  if ((confirmedOf === undefined) !== (confirmed === undefined)) {
    return [
      {
        field: confirmed === undefined ? 'confirmed' : 'confirmedOf',
        expected: 'given together with the other of the pair',
      },
    ]
  }
  if (confirmedOf === undefined || confirmed === undefined) return []
  const problems = []
  if (confirmedOf > colonies) problems.push({ field: 'confirmedOf', expected: `at most the colonies, ${colonies}` })
  if (confirmedOf === 0 && colonies > 0) problems.push({ field: 'confirmedOf', expected: 'at least 1, or left out' })
  if (confirmed > confirmedOf) problems.push({ field: 'confirmed', expected: `at most confirmedOf, ${confirmedOf}` })
  return problems
}

const MOST_PLATES = 10_000

const plate = z
  .strictObject({
    colonies: field(measure.count(), { what: 'colonies counted' }),
    platedMl: field(measure.positive(), { what: 'volume spread on the plate', unit: 'mL' }),
    concentrationFactor: field(measure.positive().default(1), {
      what: 'mL of the sample in 1 mL plated: filtered over eluted volume, halved where acid was added 1 to 1',
    }),
    confirmedOf: field(measure.count().optional(), { what: 'colonies picked for confirmation' }),
    confirmed: field(measure.count().optional(), { what: 'of those, confirmed' }),
  })
  .superRefine((each, context) => {
    for (const { field, expected } of plateProblems(each)) context.addIssue(refuse([field], expected))
  })

const input = z.strictObject({
  plates: field(z.array(plate).min(1).max(MOST_PLATES), { what: 'the plates of one sample' }),
  level: levelField(),
})

export const plateCountCalculation = defineCalculation({
  id: 'plate-count',
  title: 'Concentration from plates',
  purpose: 'What colonies on plates say about the water: concentration, interval and the least that could be seen.',
  formula: {
    text: 'c = 1000 · Σ(n · k / m) / Σ(v · f)',
    symbols: {
      c: 'cfuPerL',
      n: 'plates[].colonies',
      k: 'plates[].confirmed',
      m: 'plates[].confirmedOf',
      v: 'plates[].platedMl',
      f: 'plates[].concentrationFactor',
    },
  },
  input,
  output: z.object({
    cfuPerL: field(z.number(), { what: 'concentration in the sample', unit: 'CFU/L' }),
    interval: intervalField({ what: 'limits of the concentration', unit: 'CFU/L' }),
    detectionLimitCfuPerL: field(z.number(), { what: 'concentration that gives one colony', unit: 'CFU/L' }),
    qualifier: field(z.string(), { what: 'not-detected, present, estimated or counted, by the colonies behind it' }),
    level: field(z.number(), { what: 'confidence level of the interval' }),
  }),
  sources: sourcesOf('iso-11731-2017', 'iso-8199-2018', 'garwood-1936', 'zou-donner-2008'),
  cautions: [
    'The interval is of counting (and picking) alone; recovery, treatment and the method lose more, and are not in it.',
    'The qualifier follows reporting steps given from memory; verify them before use. Not detected is never "free of Legionella".',
  ],
  example: {
    input: { plates: [{ colonies: 23, platedMl: 0.1, concentrationFactor: 100 }], level: 0.95 },
    output: {
      cfuPerL: 2300,
      interval: { lower: 1458.0027037044679, upper: 3451.129289483303 },
      detectionLimitCfuPerL: 100,
      qualifier: 'counted',
      level: 0.95,
    },
  },
  run: plateCount,
})
