import data from '@rillmark/reference/control/measures.json' with { type: 'json' }
import * as z from 'zod'
import { isoDate } from '../entry/fields.ts'
import { sourcedFields } from '../units/figure.ts'
import { MEASURES } from './kinds.ts'

const words = (max: number) => z.string().trim().min(1).max(max)
const saidSchema = z.strictObject({ text: words(400), ...sourcedFields })

const targetSchema = z.strictObject({
  id: words(40),
  title: words(80),
  /** where it is to be reached and proved */
  at: z.enum(['outlet', 'heater', 'tank', 'return']),
  quantity: z.enum(['temperature', 'free chlorine', 'total chlorine', 'flush time', 'other']),
  value: z.number().positive(),
  unit: words(20),
  minutes: z.number().positive().optional(),
  ...sourcedFields,
})

const measureSchema = z.strictObject({
  measure: z.enum(MEASURES),
  targets: z.array(targetSchema).max(12),
  /** what other sources say against it, or that the figures disagree */
  against: z.array(saidSchema).max(6),
  /** shown once, where the measure is ordered or proved */
  cautions: z.array(saidSchema).max(3),
})

export const measuresReferenceSchema = z.strictObject({
  format: z.literal('rillmark/measures@1'),
  version: words(40),
  date: isoDate,
  purpose: words(400),
  measures: z.array(measureSchema),
  discharge: saidSchema,
})

export type ReferenceTarget = z.infer<typeof targetSchema>
export type ReferenceMeasure = z.infer<typeof measureSchema>

/** Published targets of measures, what speaks against them, and their cautions. */
export const MEASURES_REFERENCE = measuresReferenceSchema.parse(data)

/** What is published on a measure; without targets where nothing was found. */
export function referenceFor(measure: (typeof MEASURES)[number]): ReferenceMeasure {
  return (
    MEASURES_REFERENCE.measures.find((each) => each.measure === measure) ?? {
      measure,
      targets: [],
      against: [],
      cautions: [],
    }
  )
}
