import * as z from 'zod'
import { code, entryId, instant, optionalText, sha256Hex, text, worker } from '../entry/fields.ts'

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
  'not in the box',
  'other',
] as const

/** Most readings one entry carries, and most entries one file of a logger makes: a fortnight at two a minute still fits. */
export const SERIES_LIMITS = { readings: 2000, pieces: 20 } as const

/** What a temperature logger kept, in one entry or in pieces: readings by the second since its first one. */
const series = z.strictObject({
  /** its name or number, as on its back */
  logger: text(120).optional(),
  /** the file it was read from, so that it can be held against the original */
  file: z.strictObject({ name: text(200), sha256: sha256Hex }).optional(),
  startedAt: instant,
  seconds: z.array(z.int().min(0)).min(1).max(SERIES_LIMITS.readings),
  temperatureC: z.array(temperatureC).min(1).max(SERIES_LIMITS.readings),
  piece: z.strictObject({ number: z.int().min(1), of: z.int().min(1).max(SERIES_LIMITS.pieces) }).optional(),
})
export type LoggerSeries = z.infer<typeof series>

/** How the one who took a consignment over said so: a picture drawn on the screen, their own device, or a paper form photographed. */
const signature = z.discriminatedUnion('way', [
  z.strictObject({ way: z.literal('drawn'), sha256: sha256Hex }),
  z.strictObject({ way: z.literal('device'), device: text(80) }),
  z.strictObject({ way: z.literal('paper'), sha256: sha256Hex }),
])
export type HandOverSignature = z.infer<typeof signature>

/** One sample at the laboratory's door; a rejected one is not examined, whatever its condition. */
const arrival = z.strictObject({
  label: text(40),
  condition: z.enum(CONDITIONS),
  rejected: z.boolean().optional(),
  notes: optionalText,
})
export type Arrival = z.infer<typeof arrival>

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
    body: z.strictObject({
      consignment: code,
      temperatureC: temperatureC.optional(),
      where: optionalText,
      at,
      series: series.optional(),
    }),
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
      signedBy: signature.optional(),
    }),
  },
  'consignment.accepted': {
    step: 'custody',
    title: 'Hand-over accepted',
    body: z.strictObject({
      consignment: code,
      /** the hand-over it accepts */
      handOver: entryId,
      by: worker,
      sealIntact: z.boolean(),
      temperatureC: temperatureC.optional(),
      at,
      notes: optionalText,
    }),
  },
  'sample.split': {
    step: 'custody',
    title: 'Sample split',
    body: z.strictObject({
      /** the sample, or part of one, that was divided */
      label: text(40),
      /** the part's own label */
      split: text(40),
      volumeMl: z.number().positive().max(20_000),
      to: worker,
      purpose: optionalText,
      at,
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
      /** the number on the seal as the laboratory read it */
      sealRead: text(60).optional(),
      temperatureC: temperatureC.optional(),
      at,
      samples: z.array(arrival),
    }),
  },
} as const
