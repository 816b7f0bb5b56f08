import { linkEnvelopeSchema } from '@rillmark/casebook/chain/link.ts'
import { envelopeSchema } from '@rillmark/casebook/entry/entry.ts'
import { sha256Hex } from '@rillmark/casebook/entry/fields.ts'
import * as z from 'zod'

export const PACKAGE_FORMAT = 'rillmark/package@1'
export const MANIFEST_PATH = 'manifest.json'
export const ENTRIES_PATH = 'entries.jsonl'
export const DATA_PACKAGE_PATH = 'datapackage.json'
export const KEYS_PATH = 'keys.json'
export const TREE_PATH = 'tree.json'
export const VERIFIER_PATH = 'verify.html'
export const REPORTS_FOLDER = 'reports/'

/** What lies in a package, and the head the record must end at. */
export const manifestSchema = z.strictObject({
  format: z.literal(PACKAGE_FORMAT),
  investigation: envelopeSchema.shape.investigation,
  title: z.string().max(200),
  head: z.strictObject({ sequence: linkEnvelopeSchema.shape.sequence, hash: sha256Hex }),
  counts: z.strictObject({ entries: z.int().min(1), attachments: z.int().min(0) }),
  /** every other file in the package */
  files: z.array(z.strictObject({ path: z.string().max(200), bytes: z.int().min(0), sha256: sha256Hex })).max(20_000),
  /** attachments and issued reports the record names that were not at hand when the package was made */
  missing: z.array(sha256Hex).default([]),
  /** which tables these are: a verifier that knows the version makes them again and compares; absent in the oldest packages */
  tables: z.string().max(60).optional(),
})

export type Manifest = z.infer<typeof manifestSchema>

const ALLOWED =
  /^(?:manifest\.json|entries\.jsonl|datapackage\.json|keys\.json|tree\.json|verify\.html|reports\/[a-z0-9-]{1,80}\.pdf|tables\/[a-z-]{1,40}\.csv|attachments\/[0-9a-f]{64}\.(?:jpg|png|webp))$/

/** Whether a path may stand in a package. There is no other: nothing can point outside, and nothing unknown comes along. */
export function isPackagePath(path: string): boolean {
  return ALLOWED.test(path)
}
