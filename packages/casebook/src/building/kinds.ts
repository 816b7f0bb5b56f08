import * as z from 'zod'
import { acceptedFitSchema } from '../calibration/accepted-fit.ts'
import { predictionSchema } from '../conditions/prediction.ts'
import { componentId, isoDate, optionalText, text } from '../entry/fields.ts'
import { quickDescriptionSchema } from './quick-description.ts'
import { componentSchema, pipeSchema, supplySchema, waterSystemSchema } from './water-system.ts'

/** One change to the described water system. */
const systemChangeSchema = z.discriminatedUnion('change', [
  z.strictObject({ change: z.literal('put-component'), component: componentSchema }),
  z.strictObject({ change: z.literal('remove-component'), id: componentId }),
  z.strictObject({ change: z.literal('put-pipe'), pipe: pipeSchema }),
  z.strictObject({ change: z.literal('remove-pipe'), id: componentId }),
  z.strictObject({ change: z.literal('set-supply'), supply: supplySchema }),
  z.strictObject({ change: z.literal('set-name'), name: text(120) }),
])
export type SystemChange = z.infer<typeof systemChangeSchema>

export const BUILDING_KINDS = {
  'building.described': {
    step: 'building',
    title: 'Building described',
    body: z.strictObject({
      source: z.enum(['quick description', 'tables', 'file']),
      quick: quickDescriptionSchema.optional(),
      system: waterSystemSchema,
    }),
  },
  'building.edited': {
    step: 'building',
    title: 'Building edited',
    body: z.strictObject({ changes: z.array(systemChangeSchema).min(1).max(5000), why: optionalText }),
  },
  'device.swept': {
    step: 'building',
    title: 'Device looked for',
    body: z.strictObject({
      device: text(60),
      state: z.enum(['present', 'absent', 'not looked at']),
      place: optionalText,
      component: componentId.optional(),
      notes: optionalText,
    }),
  },
  'history.recorded': {
    step: 'building',
    title: 'Event in the building recorded',
    body: z.strictObject({
      on: isoDate,
      until: isoDate.optional(),
      what: z.enum([
        'works',
        'closure',
        'outage',
        'disinfection',
        'flushing',
        'filter fitted',
        'setting changed',
        'supply event',
        'other',
      ]),
      components: z.array(componentId).max(5000).default([]),
      text: text(2000),
    }),
  },
  /** what the simulation said of the building as described then */
  'prediction.recorded': {
    step: 'building',
    title: 'Predicted conditions recorded',
    body: predictionSchema,
  },
  /** what predictions take in place of guesses, from readings of a round */
  'fit.accepted': {
    step: 'building',
    title: 'Fitted values taken over',
    body: acceptedFitSchema,
  },
} as const
