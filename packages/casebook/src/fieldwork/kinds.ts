import * as z from 'zod'
import {
  circuit,
  code,
  componentId,
  instant,
  isoDate,
  optionalText,
  sampleKind,
  sha256Hex,
  text,
} from '../entry/fields.ts'
import { roundCode } from '../plan/kinds.ts'
import { stopSchema } from '../plan/plan-file.ts'

const atStop = { round: roundCode, stop: z.string().min(1).max(60) }

const READING_QUANTITIES = ['hot-temperature', 'cold-temperature', 'ph', 'free-chlorine', 'total-chlorine'] as const
export type ReadingQuantity = (typeof READING_QUANTITIES)[number]

/** A measured value, or the statement that it lay outside what the instrument can tell. */
const readingValueSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('value'), value: z.number(), unit: z.enum(['Cel', '[pH]', 'mg/L']) }),
  z.strictObject({ kind: z.literal('below'), limit: z.number(), unit: z.enum(['Cel', '[pH]', 'mg/L']) }),
  z.strictObject({ kind: z.literal('above'), limit: z.number(), unit: z.enum(['Cel', '[pH]', 'mg/L']) }),
])
export type ReadingValue = z.infer<typeof readingValueSchema>

/** What a probe in water can show, °C; more is a slip of the finger. */
export const CURVE_C = { min: -5, max: 110 } as const

const curveSchema = z.strictObject({
  points: z
    .array(z.strictObject({ seconds: z.number().min(0), temperatureC: z.number().min(CURVE_C.min).max(CURVE_C.max) }))
    .min(1)
    .max(500),
  steady: z.strictObject({ fromSeconds: z.number(), toSeconds: z.number(), temperatureC: z.number() }).optional(),
})
export type TemperatureCurve = z.infer<typeof curveSchema>

export const DEVIATION_REASONS = [
  'out of order',
  'no access',
  'no flow',
  'fitting could not be removed',
  'already running on arrival',
  'neutralizer missing or short',
  'volume short',
  'instrument out of range',
  'calibration out of date',
  'not safe',
  'other',
] as const

export const FIELDWORK_KINDS = {
  'instrument.registered': {
    step: 'fieldwork',
    title: 'Instrument registered',
    body: z.strictObject({
      code,
      kind: z.enum(['thermometer', 'pH meter', 'pH strip', 'chlorine kit']),
      measures: z.array(z.enum(READING_QUANTITIES)).min(1),
      rangeMin: z.number(),
      rangeMax: z.number(),
      resolution: z.number().positive(),
      unit: z.enum(['Cel', '[pH]', 'mg/L']),
      calibratedOn: isoDate.optional(),
      calibrationDue: isoDate.optional(),
    }),
  },
  'stop.added': {
    step: 'fieldwork',
    title: 'Stop added on the spot',
    body: z.strictObject({ round: roundCode, stop: stopSchema, reason: text(400) }),
  },
  'stop.started': { step: 'fieldwork', title: 'Stop started', body: z.strictObject(atStop) },
  'step.done': {
    step: 'fieldwork',
    title: 'Step done',
    body: z.strictObject({
      ...atStop,
      procedure: text(60),
      step: text(60),
      /** the sample it served, where a procedure is gone through for several */
      label: text(40).optional(),
      seconds: z.number().min(0).optional(),
      notes: optionalText,
    }),
  },
  'sample.collected': {
    step: 'fieldwork',
    title: 'Sample collected',
    body: z.strictObject({
      ...atStop,
      label: text(40),
      sampleKind,
      circuit: circuit.optional(),
      component: componentId.optional(),
      volumeMl: z.number().positive().max(20_000).optional(),
      flushedSeconds: z.number().min(0).max(36_000).optional(),
      filter: z.enum(['none', 'before filter', 'after filter']).default('none'),
      neutralizer: z
        .strictObject({
          solutionNormality: z.number().positive().max(2),
          solutionVolumeMl: z.number().min(0).max(100),
          lot: optionalText,
          expiresOn: isoDate.optional(),
        })
        .optional(),
      notes: optionalText,
    }),
  },
  'reading.taken': {
    step: 'fieldwork',
    title: 'Reading taken',
    body: z.strictObject({
      ...atStop,
      component: componentId.optional(),
      quantity: z.enum(READING_QUANTITIES),
      /** which water was measured, where a point has several */
      circuit: circuit.optional(),
      reading: readingValueSchema,
      curve: curveSchema.optional(),
      instrument: code.optional(),
      takenAt: instant.optional(),
      notes: optionalText,
    }),
  },
  'deviation.recorded': {
    step: 'fieldwork',
    title: 'Deviation recorded',
    body: z.strictObject({
      ...atStop,
      /** with `step`: which step it is about */
      procedure: text(60).optional(),
      step: text(60).optional(),
      /** the sample it is about */
      label: text(40).optional(),
      /** the step, or with `label` the whole sample, was left out */
      leftOut: z.boolean().optional(),
      reason: z.enum(DEVIATION_REASONS),
      text: optionalText,
    }),
  },
  'photo.taken': {
    step: 'fieldwork',
    title: 'Photo taken',
    body: z.strictObject({
      ...atStop,
      sha256: sha256Hex,
      mediaType: z.enum(['image/jpeg', 'image/png', 'image/webp']),
      bytes: z.int().positive(),
      shows: text(300),
    }),
  },
  'stop.finished': {
    step: 'fieldwork',
    title: 'Stop finished',
    body: z.strictObject({ ...atStop, outcome: z.enum(['sampled', 'partly', 'not possible']), reason: optionalText }),
  },
} as const
