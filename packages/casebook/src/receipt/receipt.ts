import * as z from 'zod'
import { linkEnvelopeSchema } from '../chain/link.ts'
import { deviceKey } from '../devices/kinds.ts'
import { envelopeSchema, signatureSchema } from '../entry/entry.ts'
import { instant, sha256Hex, text } from '../entry/fields.ts'

export const RECEIPT_FORMAT = 'rillmark/receipt@1'

/** More steps than any tree of links has levels. */
const LONGEST_PATH = 64
const MOST_LINKS = 2000

const path = z.array(sha256Hex).max(LONGEST_PATH)
const provedLink = z.strictObject({ leaf: linkEnvelopeSchema, path })
const size = z.int().min(1)

/** Links of a record with the hashes that lead from each to the root of the whole: what someone outside can keep. */
export const receiptSchema = z.strictObject({
  format: z.literal(RECEIPT_FORMAT),
  investigation: envelopeSchema.shape.investigation,
  /** the label the links name, where it is the receipt of a sample */
  sample: text(40).optional(),
  treeSize: size,
  rootHash: sha256Hex,
  proofs: z.array(provedLink).min(1).max(MOST_LINKS),
  /** how the devices that signed those links joined: the keys to check the signatures with */
  devices: z.array(provedLink).max(MOST_LINKS).default([]),
  /** shows that the record of an earlier receipt is the beginning of this one's */
  since: z.strictObject({ treeSize: size, rootHash: sha256Hex, path }).optional(),
  /** when and with which key it was given, by the clock of who gave it */
  issued: z.strictObject({ at: instant, key: deviceKey }).optional(),
  /** by that key, over the canonical JSON of everything else in the receipt */
  signature: signatureSchema.optional(),
})

export type Receipt = z.infer<typeof receiptSchema>
export type ProvedLink = z.infer<typeof provedLink>
