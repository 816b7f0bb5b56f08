import * as z from 'zod'
import {
  circuit,
  code,
  componentId,
  entryId,
  instant,
  isoDate,
  optionalText,
  sampleKind,
  sha256Hex,
  text,
} from '../entry/fields.ts'
import { concentrationUnitSchema } from '../units/quantity.ts'
import { resultValueSchema } from '../units/result-value.ts'

export const METHODS = ['culture', 'PCR', 'most probable number', 'other'] as const

/** How a laboratory's columns were read; remembered for its next file. */
const mappingSchema = z.strictObject({
  columns: z.record(z.string(), z.string()),
  decimal: z.enum(['point', 'comma']),
  dateOrder: z.enum(['year-month-day', 'day-month-year', 'month-day-year']),
  unit: optionalText,
  /** which columns hold results, one method each; the other columns are in `columns` by what they hold */
  results: z
    .array(
      z.strictObject({
        column: text(200),
        method: z.enum(METHODS),
        target: text(120).optional(),
        /** what the counts are expressed in where neither the cell nor a unit column says it */
        unit: concentrationUnitSchema.optional(),
        /** the limit meant by words such as "below LOD" */
        limit: z.number().positive().optional(),
      }),
    )
    .max(20)
    .optional(),
  /** columns joined to make the label of a sample where the file has no label column of its own */
  labelFrom: z.array(text(200)).max(6).optional(),
  labelPrefix: z.string().trim().max(30).optional(),
})
export type Mapping = z.infer<typeof mappingSchema>

export const RESULTS_KINDS = {
  'results.imported': {
    step: 'results',
    title: 'Result file imported',
    body: z.strictObject({
      fileName: text(200),
      sha256: sha256Hex,
      laboratory: text(120),
      mapping: mappingSchema,
      rows: z.int().min(0),
      accepted: z.int().min(0),
      setAside: z.array(z.strictObject({ row: z.int(), reason: text(400) })).default([]),
    }),
  },
  'sample.registered': {
    step: 'results',
    title: 'Sample taken by others registered',
    body: z.strictObject({
      label: text(60),
      takenBy: text(120),
      place: optionalText,
      component: componentId.optional(),
      circuit: circuit.optional(),
      sampleKind: sampleKind.optional(),
      draw: z.enum(['first draw', 'flushed', 'not stated']).default('not stated'),
      collectedOn: isoDate.optional(),
      temperatureC: z.number().min(-5).max(110).optional(),
      group: optionalText,
    }),
  },
  'result.reported': {
    step: 'results',
    title: 'Result reported',
    body: z.strictObject({
      label: text(60),
      laboratory: text(120),
      method: z.enum(METHODS),
      target: z.string().max(120).default('Legionella'),
      value: resultValueSchema,
      species: optionalText,
      serogroup: optionalText,
      status: z.enum(['preliminary', 'final', 'corrected']).default('final'),
      reportId: optionalText,
      reportedOn: isoDate.optional(),
      volumeExaminedMl: z.number().positive().optional(),
      received: instant.optional(),
      importedBy: entryId.optional(),
      row: z.int().optional(),
      asWritten: z.record(z.string(), z.string()).optional(),
      halfLimitSuspected: z.boolean().optional(),
      notes: optionalText,
    }),
  },
  'isolate.recorded': {
    step: 'results',
    title: 'Isolate recorded',
    body: z.strictObject({
      code,
      from: z.discriminatedUnion('origin', [
        z.strictObject({ origin: z.literal('case'), caseCode: code }),
        z.strictObject({ origin: z.literal('sample'), label: text(60) }),
      ]),
      species: text(80),
      serogroup: optionalText,
      monoclonalType: optionalText,
      sequenceType: optionalText,
      laboratory: optionalText,
      keptUntil: isoDate.optional(),
      notes: optionalText,
    }),
  },
} as const
