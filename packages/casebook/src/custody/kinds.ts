import * as z from 'zod'
import { code, instant, optionalText, text, worker } from '../entry/fields.ts'

const temperatureC = z.number().min(-40).max(100)

/** When it happened, where that is not the moment of writing it down. */
const at = instant.optional()

/** Condition of a sample at the laboratory's door. `accepted` or a coded reason for refusing or noting. */
export const CONDITIONS = [
  'accepted',
  'broken',
  'leaking',
  'label missing or wrong',
  'not enough volume',
  'too old',
  'too warm',
  'frozen',
  'seal broken',
  'other',
] as const

export const CUSTODY_KINDS = {
  'consignment.opened': {
    step: 'custody',
    title: 'Consignment opened',
    body: z.strictObject({
      consignment: code,
      container: z.enum(['cooler', 'box', 'bag', 'other']),
      transportC: z.strictObject({ lower: temperatureC, upper: temperatureC }).optional(),
      notes: optionalText,
    }),
  },
  'sample.packed': {
    step: 'custody',
    title: 'Sample packed',
    body: z.strictObject({ consignment: code, label: text(40) }),
  },
  'sample.unpacked': {
    step: 'custody',
    title: 'Sample taken out',
    body: z.strictObject({ consignment: code, label: text(40), reason: text(400) }),
  },
  'consignment.sealed': {
    step: 'custody',
    title: 'Consignment sealed',
    body: z.strictObject({ consignment: code, seal: text(60), temperatureC: temperatureC.optional(), at }),
  },
  'seal.opened': {
    step: 'custody',
    title: 'Seal opened',
    body: z.strictObject({ consignment: code, by: worker, reason: text(400), at }),
  },
  'temperature.logged': {
    step: 'custody',
    title: 'Transport temperature logged',
    body: z.strictObject({ consignment: code, temperatureC, where: optionalText, at }),
  },
  'consignment.handed-over': {
    step: 'custody',
    title: 'Consignment handed over',
    body: z.strictObject({
      consignment: code,
      from: worker,
      to: worker,
      sealIntact: z.boolean(),
      temperatureC: temperatureC.optional(),
      at,
      notes: optionalText,
    }),
  },
  'consignment.received': {
    step: 'custody',
    title: 'Consignment received by the laboratory',
    body: z.strictObject({
      consignment: code,
      laboratory: text(120),
      receivedBy: worker,
      sealIntact: z.boolean(),
      temperatureC: temperatureC.optional(),
      at,
      samples: z.array(z.strictObject({ label: text(40), condition: z.enum(CONDITIONS), notes: optionalText })),
    }),
  },
} as const
