import * as z from 'zod'
import { entryId, instant, offset, text } from './fields.ts'
import type { BodyOf, Kind } from './kinds.ts'

/** What every entry carries besides its kind and body. */
export const envelopeSchema = z.strictObject({
  kind: z.string(),
  id: entryId,
  investigation: z.string().regex(/^[a-z0-9][a-z0-9-]{2,63}$/, 'lower-case letters, digits and dashes'),
  instant,
  offset,
  author: text(120),
  device: text(80),
  deviceSequence: z.int().min(1),
  body: z.unknown(),
  corrects: z.strictObject({ entry: entryId, reason: text(1000) }).optional(),
})

export type Envelope = z.infer<typeof envelopeSchema>

/** One immutable line of the record, of a given kind. */
export type EntryOf<K extends Kind> = Omit<Envelope, 'kind' | 'body' | 'corrects'> & {
  readonly kind: K
  readonly body: BodyOf<K>
  readonly corrects?: { readonly entry: string; readonly reason: string }
}

/** One immutable line of the record, of any kind. */
export type Entry = { [K in Kind]: EntryOf<K> }[Kind]
