import * as z from 'zod'
import { componentId, entryId, instant, isoDate, optionalText, sha256Hex, text } from '../entry/fields.ts'

export const MEASURES = [
  'restrict use',
  'fit point-of-use filter',
  'flush',
  'heat disinfection',
  'shock chlorination',
  'continuous disinfection',
  'remove dead leg',
  'balance recirculation',
  'repair or replace',
  'change setting',
  'clean or descale',
  'take out of use',
  'other',
] as const

const amount = z.strictObject({
  quantity: z.enum(['temperature', 'free chlorine', 'total chlorine', 'flush time', 'other']),
  value: z.number(),
  unit: text(20),
  minutes: z.number().min(0).optional(),
})

export const CONTROL_KINDS = {
  'measure.ordered': {
    step: 'control',
    title: 'Measure ordered',
    body: z.strictObject({
      measure: z.enum(MEASURES),
      stage: z.enum(['immediate', 'remediation', 'long-term']),
      where: text(200),
      components: z.array(componentId).max(5000).default([]),
      owner: text(120),
      dueOn: isoDate.optional(),
      target: amount.optional(),
      calculation: z.strictObject({ id: text(60), input: z.unknown(), result: z.unknown() }).optional(),
      notes: optionalText,
    }),
  },
  'measure.achieved': {
    step: 'control',
    title: 'Measure proved at an outlet',
    body: z.strictObject({
      measure: entryId,
      component: componentId.optional(),
      at: instant,
      achieved: amount.optional(),
      reached: z.boolean(),
      by: text(120),
      photo: sha256Hex.optional(),
      notes: optionalText,
    }),
  },
  'measure.completed': {
    step: 'control',
    title: 'Measure completed',
    body: z.strictObject({
      measure: entryId,
      completedOn: isoDate,
      outcome: z.enum(['carried out', 'partly', 'dropped']),
      reason: optionalText,
    }),
  },
} as const
