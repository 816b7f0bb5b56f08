import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, levelField, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { contradictionsOf } from './plates-agreement.ts'
import { figuresOfPlates, type Plate, plateProblems, type PlatesFigures, type Treatment, TREATMENTS } from './plates.ts'

export interface PlateCountInput {
  plates: Plate[]
  level: number
}

export interface PlateCount extends PlatesFigures {
  /** The treatment the result is of, where any was named. */
  treatment?: Treatment | undefined
  byTreatment?: (PlatesFigures & { treatment: Treatment })[] | undefined
  /** Plates by what became of them. */
  plates: { counted: number; tooMany: number; unreadable: number }
  level: number
}

/**
 * The concentration in the sample (CFU/L) from colonies on one or several plates, volumes and treatments, with its interval.
 * Wanted because laboratories report a bare number, and five colonies are a wide one.
 *
 * cfuPerL = 1000 · Σ(colonies · confirmed / confirmedOf) / Σ(platedMl · concentrationFactor · treatmentFactor): plates are pooled by
 * the sample they stand for. Every colony picked (or none needed): exact Poisson limits of the count. Some picked:
 * the limits of the count and of the confirmed share are joined by recovered variances,
 * and never narrower than had every colony been picked.
 *
 * Special cases: no colonies gives 0 with qualifier `not-detected` and an upper limit above 0. Plates of named treatments are pooled
 * within their treatment, and the treatment with the highest result is reported. Plates overgrown by Legionella give `greater-than`,
 * without an upper limit; beside counted plates they add how likely so many or more are. One overgrown by others tells nothing.
 *
 * @param input plates (at least 1 that others did not overgrow), level
 * @throws RangeError when a plate contradicts itself, or others overgrew them all
 * @source iso-11731-2017
 * @source garwood-1936
 * @source haas-heller-1988
 * @source zou-donner-2008
 * @example
 * plateCount({ plates: [{ colonies: 23, platedMl: 0.1, concentrationFactor: 100, confirmedOf: 5, confirmed: 4 }], level: 0.95 }).cfuPerL // => 1840
 */
export function plateCount({ plates, level }: PlateCountInput): PlateCount {
  const problem = plates.flatMap(plateProblems)[0]
  if (problem !== undefined)
    throw new RangeError(`Cannot count a plate because ${problem.field} must be ${problem.expected}`)
  const groups = [...Map.groupBy(plates, ({ treatment }) => treatment)].flatMap(([treatment, alike]) => {
    const figures = figuresOfPlates(alike, level)
    return figures === undefined ? [] : [{ ...(treatment === undefined ? {} : { treatment }), ...figures }]
  })
  const highest = groups
    .toSorted((a, b) => b.cfuPerL - a.cfuPerL || a.detectionLimitCfuPerL - b.detectionLimitCfuPerL)
    .at(0)
  if (highest === undefined)
    throw new RangeError('Cannot count because a plate must be readable: others overgrew every one')
  const named = groups.flatMap(({ treatment, ...figures }) =>
    treatment === undefined ? [] : [{ treatment, ...figures }],
  )
  const number = (overgrown: Plate['overgrown']) => plates.filter((plate) => plate.overgrown === overgrown).length
  return {
    ...highest,
    ...(named.length === 0 ? {} : { byTreatment: named }),
    plates: { counted: number(undefined), tooMany: number('by-legionella'), unreadable: number('by-others') },
    level,
  }
}

const MOST_PLATES = 10_000

const plate = z
  .strictObject({
    colonies: field(measure.count(), {
      what: 'colonies counted; where overgrown by Legionella the least number there are, where by others 0',
    }),
    platedMl: field(measure.positive(), { what: 'volume spread on the plate', unit: 'mL' }),
    concentrationFactor: field(measure.positive().default(1), {
      what: 'mL of the sample in 1 mL before treatment: filtered over eluted volume, below 1 for a dilution',
    }),
    treatment: field(z.enum(TREATMENTS).optional(), {
      what: 'what was done before plating; results of different treatments are not pooled, the highest is reported',
    }),
    treatmentFactor: field(measure.positive().max(1).default(1), {
      what: 'mL of what was treated in 1 mL plated: 0.5 where acid was added 1 to 1',
    }),
    confirmedOf: field(measure.count().optional(), { what: 'colonies picked for confirmation' }),
    confirmed: field(measure.count().optional(), { what: 'of those, confirmed' }),
    overgrown: field(z.enum(['by-legionella', 'by-others']).optional(), {
      what: 'overgrown; by-legionella: more than could be counted; by-others: other growth, nothing can be told',
    }),
  })
  .superRefine((each, context) => {
    for (const { field, expected } of plateProblems(each)) context.addIssue(refuse([field], expected))
  })

const input = z
  .strictObject({
    plates: field(z.array(plate).min(1).max(MOST_PLATES), { what: 'the plates of one sample' }),
    level: levelField(),
  })
  .superRefine(({ plates }, context) => {
    if (plates.length > 0 && plates.every(({ overgrown }) => overgrown === 'by-others'))
      context.addIssue(refuse(['plates'], { expected: 'a plate that others did not overgrow', received: 'none' }))
  })

const QUALIFIERS =
  'not-detected, present, estimated or counted, by the colonies behind it; estimated also where a plate is crowded or overgrown by Legionella; greater-than where cfuPerL is only the least there can be'

const figures = {
  cfuPerL: field(z.number(), { what: 'concentration in the sample', unit: 'CFU/L' }),
  interval: field(z.object({ lower: z.number(), upper: z.number().optional() }), {
    what: 'limits of the concentration; upper left out where no plate could be counted',
    unit: 'CFU/L',
  }),
  detectionLimitCfuPerL: field(z.number(), { what: 'concentration that gives one colony', unit: 'CFU/L' }),
  qualifier: field(z.string(), { what: QUALIFIERS }),
}
const treatment = z.enum(TREATMENTS)
const plates = (what: string) => field(z.number(), { what })

const EXAMPLE = { plates: [{ colonies: 23, platedMl: 0.1, concentrationFactor: 100 }], level: 0.95 }

export const plateCountCalculation = defineCalculation({
  id: 'plate-count',
  title: 'Concentration from plates',
  purpose: 'What colonies on plates say about the water: concentration, interval and the least that could be seen.',
  formula: {
    text: 'c = 1000 · Σ(n · k / m) / Σ(v · f · t)',
    symbols: {
      c: 'cfuPerL',
      n: 'plates[].colonies',
      k: 'plates[].confirmed',
      m: 'plates[].confirmedOf',
      v: 'plates[].platedMl',
      f: 'plates[].concentrationFactor',
      t: 'plates[].treatmentFactor',
    },
  },
  input,
  output: z.object({
    ...figures,
    treatment: field(treatment.optional(), { what: 'treatment the result is of; left out where none was named' }),
    byTreatment: field(
      z.array(z.object({ treatment: field(treatment, { what: 'treatment' }), ...figures })).optional(),
      { what: 'the same for every treatment named' },
    ),
    plates: field(
      z.object({
        counted: plates('plates counted'),
        tooMany: plates('plates with more Legionella than could be counted'),
        unreadable: plates('plates others overgrew'),
      }),
      { what: 'plates by what became of them' },
    ),
    level: field(z.number(), { what: 'confidence level of the interval' }),
  }),
  sources: sourcesOf(
    'iso-11731-2017',
    'iso-8199-2018',
    'garwood-1936',
    'haas-heller-1988',
    'zou-donner-2008',
    'williams-1976',
  ),
  cautionsFor: ({ input: { plates } }) => contradictionsOf(plates),
  cautions: [
    'The interval is of counting (and picking) alone; recovery, treatment and the method lose more, and are not in it. The highest of several treatments tends to be a little too high.',
    'The qualifier follows reporting steps given from memory; verify them before use. Not detected is never "free of Legionella", and a plate others overgrew is not a negative.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      cfuPerL: 2300,
      interval: { lower: 1458.0027037044679, upper: 3451.129289483303 },
      detectionLimitCfuPerL: 100,
      qualifier: 'counted',
      plates: { counted: 1, tooMany: 0, unreadable: 0 },
      level: 0.95,
    },
  },
  run: plateCount,
})
