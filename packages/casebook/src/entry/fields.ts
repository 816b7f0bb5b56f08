import * as z from 'zod'

/** Fields that entries of several steps share. */
export const text = (max: number) => z.string().trim().min(1).max(max)
export const optionalText = z.string().trim().max(4000).optional()

/** A short name people type: letters, digits, dot, dash, slash, space. */
export const code = z
  .string()
  .trim()
  .min(1)
  .max(40)
  .regex(/^[\p{L}\p{N}][\p{L}\p{N} ._/-]*$/u, 'letters, digits, space, dot, dash or slash')

export const isoDate = z.iso.date({ abort: true }).refine(isReckonable, 'a date from 1900 to 2199')

/** UTC instant with milliseconds, e.g. 2026-03-02T08:15:00.000Z. */
export const instant = z.iso.datetime({ precision: 3, abort: true }).refine(isReckonable, 'a time from 1900 to 2199')

/** Local offset from UTC in force where the entry was made, e.g. +01:00. */
export const offset = z.string().regex(/^[+-](0\d|1[0-4]):[0-5]\d$/, 'an offset such as +01:00')

export const entryId = z.uuid()

/** SHA-256 in lower-case hexadecimal. */
export const sha256Hex = z.string().regex(/^[0-9a-f]{64}$/, 'SHA-256 as 64 hexadecimal digits')

/** So many bytes in base64url without padding (RFC 4648, section 5). */
export const base64urlOf = (bytes: number) =>
  z.string().regex(new RegExp(`^[A-Za-z0-9_-]{${Math.ceil((bytes * 4) / 3)}}$`), `${bytes} bytes in base64url`)

export const componentId = z.string().min(1).max(120)

export const circuit = z.enum(['cold', 'hot', 'tempered', 'hot-return'])
export type Circuit = z.infer<typeof circuit>

/** A person at work (sampler, courier, laboratory), by name and role: never a case. */
export const worker = z.strictObject({ name: text(120), role: text(120) })

export const sampleKind = z.enum([
  'first-flush-swab',
  'bulk-hot',
  'bulk-cold',
  'heater-drain',
  'return-line',
  'field-blank',
  'duplicate',
  'readings-only',
])
export type SampleKind = z.infer<typeof sampleKind>

/** The trade's words for sample kinds, as shown to people. */
export const SAMPLE_KIND_WORDS: Readonly<Record<SampleKind, string>> = {
  'first-flush-swab': 'first flush + biofilm swab',
  'bulk-hot': 'bulk hot',
  'bulk-cold': 'bulk cold',
  'heater-drain': 'heater drain',
  'return-line': 'return line',
  'field-blank': 'field blank',
  duplicate: 'duplicate',
  'readings-only': 'readings only',
}

/** Years with which the calendar can be reckoned in both directions; any other is a slip of the keyboard. */
function isReckonable(text: string): boolean {
  return /^(?:19|20|21)/.test(text)
}
