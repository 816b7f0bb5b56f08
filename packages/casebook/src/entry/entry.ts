import * as z from 'zod'
import { base64urlOf, entryId, instant, offset, sha256Hex, text } from './fields.ts'
import type { BodyOf, Kind } from './kinds.ts'

/** r and s of an ECDSA signature on P-256, one after the other (IEEE P1363). */
const SIGNATURE_BYTES = 64

export const signatureSchema = z.strictObject({ key: sha256Hex, value: base64urlOf(SIGNATURE_BYTES) })

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
  /** sequence of the last link this device held when the entry was made: what its writer could know */
  seen: z.int().min(0).optional(),
  /** by the device that wrote it, over the canonical JSON of everything else in the entry */
  signature: signatureSchema.optional(),
})

export type Envelope = z.infer<typeof envelopeSchema>

/** Which key signed (RFC 7638 thumbprint, hexadecimal), and r||s in base64url. */
export interface Signature {
  readonly key: string
  readonly value: string
}

/** One immutable line of the record, of a given kind. */
export type EntryOf<K extends Kind> = Omit<Envelope, 'kind' | 'body' | 'corrects' | 'seen' | 'signature'> & {
  readonly kind: K
  readonly body: BodyOf<K>
  readonly corrects?: { readonly entry: string; readonly reason: string }
  readonly seen?: number
  readonly signature?: Signature
}

/** One immutable line of the record, of any kind. */
export type Entry = { [K in Kind]: EntryOf<K> }[Kind]
