// Every figure the calculations use has a unit, a source of the register and how it is known.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import * as z from 'zod'
import models from './incubation/models.json' with { type: 'json' }
import register from './sources/calculations.json' with { type: 'json' }

const ids = register.sources.map(({ id }) => id)
const known = z.enum(['seen', 'computed', 'memory'])
const source = z.enum(ids)
const file = { version: z.string().regex(/^\d{4}\.\d+$/), date: z.iso.date() }
const figure = z.strictObject({
  value: z.number().positive(),
  unit: z.string().min(1),
  source,
  known,
  note: z.string().optional(),
})
const figures = z.strictObject({ ...file, figures: z.record(z.string(), figure) })
const ratio = z.strictObject({
  lower: z.number().positive(),
  upper: z.number().positive(),
  unit: z.string().min(1),
  source,
  known,
})
const text = z.string().min(1)

const tube = z
  .strictObject({ size: text, outside: z.number().positive(), wall: z.number().positive(), note: text.optional() })
  .refine(({ outside, wall }) => outside > 2 * wall, 'a wall that leaves a bore')
const standard = z.strictObject({ id: text, title: text, note: text.optional(), sizes: z.array(tube).min(1) })
const pipes = z.strictObject({
  ...file,
  source,
  known,
  unit: z.enum(['mm', 'in']),
  standards: z.array(standard).min(1),
})

const terms = z.array(z.strictObject({ factor: z.number(), power: z.number() })).min(1)
const twoPoles = z.strictObject({ constant: z.number(), alpha: terms, beta: terms })

/** Rows by rising temperature, whose time only falls. */
const falling = (name: 'minutes' | 'seconds') =>
  z
    .array(z.strictObject({ temperatureC: z.number(), [name]: z.number().positive() }))
    .min(1)
    .refine((rows) =>
      rows.every((row, i) => {
        const before = rows[i - 1]
        const [warm, time] = [row['temperatureC'] ?? 0, row[name] ?? 0]
        return before === undefined || (warm > (before['temperatureC'] ?? 0) && time < (before[name] ?? 0))
      }),
    )
const scald = z.strictObject({ title: text, source, known, rows: falling('seconds') })

/** A figure between the ends it may have. */
const ranged = z
  .strictObject({ ...figure.shape, lower: z.number().positive(), upper: z.number(), note: text })
  .refine(({ value, lower, upper }) => lower <= value && value <= upper, 'a value between its ends')
const range = z
  .strictObject({ lower: z.number(), upper: z.number(), unit: text, source, known, note: text })
  .refine(({ lower, upper }) => lower < upper, 'a lower and an upper end')
const said = z.strictObject({ text, source, known })
const cardinal = z
  .strictObject({
    id: text,
    minimumC: z.number(),
    optimumC: z.number(),
    maximumC: z.number(),
    source,
    known,
    note: text,
  })
  .refine(
    ({ minimumC, optimumC, maximumC }) =>
      minimumC < optimumC && optimumC < maximumC && 2 * optimumC > minimumC + maximumC,
    'the best temperature in the upper half',
  )
const profile = z
  .strictObject({
    id: text,
    name: text,
    source,
    known,
    note: text,
    percentByHour: z.array(z.number().min(0)).length(24),
  })
  .refine(
    ({ id, percentByHour }) => id === 'even' || Math.abs(percentByHour.reduce((a, b) => a + b, 0) - 100) < 0.5,
    'shares of a whole, as far as they were printed',
  )
const warmth = z.array(z.strictObject({ temperatureC: z.number(), bulkPerHour: z.number().positive() }))

/** A figure of what is shown or judged, whose source is said in words. */
const worded = z.strictObject({
  value: z.union([z.number().positive(), z.array(z.number().positive()).min(1)]),
  unit: text,
  source: text,
  known,
  note: text.optional(),
})
const plain = { id: text, version: z.string().regex(/^\d{4}-\d{2}$/), about: text }
const rising = z
  .array(z.number().positive())
  .length(9)
  .refine((edges) => edges.every((edge, i) => i === 0 || edge > (edges[i - 1] ?? edge)), 'nine rising edges')

const SCHEMAS: Record<string, z.ZodType> = {
  'calibration/fit.json': z.strictObject({
    ...plain,
    readings: z.record(text, worded),
    priors: z.record(text, worded),
    judging: z.record(text, worded),
    tried: z.record(text, worded),
  }),
  'conditions/explanation.json': z.strictObject({ ...plain, figures: z.record(text, worded) }),
  'conditions/display.json': z.strictObject({
    ...plain,
    steps: z.record(text, z.strictObject({ unit: z.string(), edges: rising, source: text, known })),
    counted: z.record(text, worded),
  }),
  'network/growth.json': z.strictObject({
    ...file,
    note: text,
    sets: z.array(cardinal).length(2),
    evidence: z.array(said).min(1),
    figures: z.record(text, figure),
  }),
  'network/decay-defaults.json': z.strictObject({
    ...file,
    note: text,
    referenceC: z.number(),
    referenceSource: source,
    referenceKnown: known,
    standingSherwood: ranged,
    disinfectants: z.array(
      z.strictObject({
        disinfectant: z.enum(['free-chlorine', 'chloramine']),
        bulkPerHour: ranged,
        activationKJPerMol: ranged,
        wallMPerHour: ranged,
        warmth,
        warmthSource: source,
        warmthKnown: known,
        caveats: z.array(said).min(1),
      }),
    ),
  }),
  'network/profiles.json': z.strictObject({
    ...file,
    note: text,
    unit: z.record(text, text),
    profiles: z.array(profile).min(1),
    diary: z.array(
      z.strictObject({ who: text, getsUpAtHour: z.number(), spreadHours: z.number().positive(), source, known }),
    ),
    families: z.record(text, z.array(text).min(1)),
    durations: z.array(z.strictObject({ id: text, name: text, source, known })),
  }),
  'network/simulation.json': z.strictObject({
    ...file,
    figures: z.record(
      text,
      z.strictObject({ value: z.number().positive(), unit: text, what: text, source: text, known }),
    ),
  }),
  'network/ranges.json': z.strictObject({ ...file, note: text, ranges: z.record(text, range) }),
  'network/roughness.json': z.strictObject({
    ...file,
    unit: z.literal('mm'),
    note: text,
    roughness: z.array(
      z.strictObject({ id: text, name: text, value: z.number().positive(), source, known, note: text.optional() }),
    ),
  }),
  'sources/calculations.json': z.strictObject({
    ...file,
    sources: z.array(z.strictObject({ id: text, citation: text, known })),
  }),
  'chlorine/stoichiometry.json': figures,
  'water/flow-regimes.json': figures,
  'water/friction.json': figures,
  'water/liquid-water.json': z.strictObject({
    ...file,
    source,
    known,
    note: text,
    unit: z.record(z.string(), text),
    rangeC: z.strictObject({ lower: z.number(), upper: z.number() }),
    gas: z.number().positive(),
    pressure: z.number().positive(),
    scale: z.number().positive(),
    volumePole: z.number().positive(),
    volumeFloor: z.number().positive(),
    volume: twoPoles,
    heat: twoPoles,
    reducingK: z.number().positive(),
    viscosity: terms,
  }),
  'chlorine/hypochlorous.json': figures,
  'chlorine/decay.json': figures,
  'chlorine/products.json': figures,
  'inactivation/heat.json': z.strictObject({
    ...file,
    unit: z.record(z.string(), text),
    rangeC: z.strictObject({ lower: z.number(), upper: z.number() }),
    mostLog10: figure,
    zC: z.number().positive(),
    zSource: source,
    zKnown: known,
    sets: z.array(
      z.strictObject({
        id: text,
        name: text,
        source,
        known,
        points: falling('minutes'),
        note: text.optional(),
      }),
    ),
  }),
  'inactivation/disinfectant.json': z.strictObject({
    ...file,
    unit: z.record(z.string(), text),
    free: z.array(
      z.strictObject({
        id: text,
        ctMgMinPerL: z.number().positive(),
        log10Reduction: z.number().positive(),
        pH: z.number().positive(),
        temperatureC: z.number(),
        source,
        known,
        note: text,
      }),
    ),
    chill: z.strictObject({
      coldC: z.number(),
      warmC: z.number(),
      pH: z.number(),
      timesAsLong: z.number().positive(),
      source,
      known,
    }),
    warmestC: z.strictObject({ value: z.number(), source, known, note: text }),
    monochloramine: z.strictObject({
      ctMgMinPerL: z.number().positive(),
      log10Reduction: z.number().positive(),
      source,
      known,
      note: text,
    }),
    monochloramineSpread: z.strictObject({ factor: z.number().positive(), source, known, note: text }),
    biofilm: z.strictObject({ ctMgMinPerL: z.number().positive(), source, known, note: text }),
  }),
  'scald/times.json': z.strictObject({
    ...file,
    unit: z.record(z.string(), text),
    adultPartial: scald,
    adultFull: scald,
    adultHotter: scald,
    child: scald,
  }),
  'heat/air.json': figures,
  'heat/film.json': figures,
  'heat/materials.json': z.strictObject({
    ...file,
    unit: z.record(z.string(), text),
    materials: z.array(
      z.strictObject({
        id: text,
        name: text,
        conductivityWPerMK: z.number().positive(),
        densityKgPerM3: z.number().positive(),
        heatJPerKgK: z.number().positive(),
        source,
        known,
      }),
    ),
  }),
  'chlorine/dechlorination.json': z.strictObject({
    ...file,
    source,
    agents: z.array(
      z.strictObject({
        id: text,
        name: text,
        molarMass: figure,
        chlorineMolesPerMole: ratio,
        fieldDose: figure,
        note: text.optional(),
      }),
    ),
  }),
  'pipes/astm-b88.json': pipes,
  'pipes/pex-sdr9.json': pipes,
  'pipes/en-1057.json': pipes,
  'incubation/definitions.json': z.strictObject({
    ...file,
    unit: text,
    definitions: z.array(
      z.strictObject({ id: text, shortestDays: z.int().min(0), longestDays: z.int(), source, known, note: text }),
    ),
  }),
  'incubation/models.json': z.strictObject({
    ...file,
    horizonDays: z.int().positive(),
    usual: z.literal(models.models.map(({ id }) => id)),
    models: z.array(
      z
        .strictObject({
          id: text,
          title: text,
          shape: z.number(),
          scaleDays: z.number().optional(),
          ratePerDay: z.number().optional(),
          source,
          known,
        })
        .refine(
          ({ scaleDays, ratePerDay }) => (scaleDays === undefined) !== (ratePerDay === undefined),
          'a scale or a rate',
        ),
    ),
  }),
  'incubation/spread.json': figures,
  'quantal/rarity.json': figures,
  'risk/shower.json': z.strictObject({
    ...file,
    unit: z.record(z.string(), text),
    heads: z
      .array(
        z.strictObject({
          id: text,
          source,
          known,
          note: text,
          airborne: z
            .array(
              z.strictObject({
                diameterMicrometres: z.int().positive(),
                meanLog: z.number(),
                sdLog: z.number().positive(),
              }),
            )
            .length(10),
        }),
      )
      .min(1),
    sizes: z.strictObject({
      source,
      known,
      note: text,
      rows: z
        .array(
          z
            .strictObject({
              diameterMicrometres: z.int().positive(),
              legionellaShare: z.number().min(0).max(1),
              depositedLower: z.number().min(0).max(1),
              depositedUpper: z.number().min(0).max(1),
            })
            .refine(
              ({ depositedLower, depositedUpper }) => depositedLower < depositedUpper,
              'a lower and an upper end',
            ),
        )
        .length(10)
        .refine(
          (rows) => rows.reduce((sum, { legionellaShare }) => sum + legionellaShare, 0) <= 1,
          'shares of one whole',
        ),
    }),
    breathing: z.array(
      z
        .strictObject({ age: text, lowerM3PerMin: z.number().positive(), upperM3PerMin: z.number(), source, known })
        .refine(({ lowerM3PerMin, upperM3PerMin }) => lowerM3PerMin < upperM3PerMin, 'a lower and an upper end'),
    ),
    doseResponse: z.record(
      z.enum(['infection', 'clinicalSeverity']),
      z.strictObject({ meanLog: z.number(), sdLog: z.number().positive(), source, known, note: text }),
    ),
  }),
  'plate-count/reporting.json': z.strictObject({
    ...file,
    source,
    known,
    note: text,
    unit: text,
    steps: z.array(z.strictObject({ qualifier: text, fromColonies: z.int().min(0) })),
    countableUpTo: z.int().positive(),
    countableUnit: text,
    crowdedQualifier: text,
    contradictUnder: z.number().positive().max(1),
    contradictUnit: text,
  }),
}

test.each(Object.entries(SCHEMAS))('%s', (path, schema) => {
  const data: unknown = JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8'))
  expect(schema.safeParse(data).error?.issues ?? []).toEqual([])
})

test('source keys are unique', () => {
  expect(new Set(ids).size).toBe(ids.length)
})
