import { createHash, createPublicKey, type KeyObject, verify } from 'node:crypto'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import * as z from 'zod'

const COORDINATE = /^[A-Za-z0-9_-]{43}$/

/** The public half of a device's key: a point of the curve P-256 as a JSON Web Key (RFC 7517, RFC 7518 section 6.2). */
export const deviceKeySchema = z
  .strictObject({
    kty: z.literal('EC'),
    crv: z.literal('P-256'),
    x: z.string().regex(COORDINATE, '32 bytes in base64url'),
    y: z.string().regex(COORDINATE, '32 bytes in base64url'),
  })
  .refine((key) => keyObjectOf(key) !== undefined, 'a point of the curve P-256')

export type DeviceKey = z.infer<typeof deviceKeySchema>

/** 64 bytes r and s (IEEE P1363) in base64url. */
export const proofSchema = z.string().regex(/^[A-Za-z0-9_-]{86}$/, 'a signature: 64 bytes in base64url')

/** Whether a signature over the canonical JSON of a statement was made with the private half of a key. */
export function isProof(statement: object, { key, proof }: { key: DeviceKey; proof: string }): boolean {
  const publicKey = keyObjectOf(key)
  if (publicKey === undefined) return false
  const signed = Buffer.from(canonicalJson(statement))
  return verify('sha256', signed, { key: publicKey, dsaEncoding: 'ieee-p1363' }, Buffer.from(proof, 'base64url'))
}

/** RFC 7638: SHA-256 over the members in the order of their names, which is canonical JSON; hexadecimal. */
export function thumbprintOf({ kty, crv, x, y }: DeviceKey): string {
  return createHash('sha256').update(canonicalJson({ kty, crv, x, y })).digest('hex')
}

function keyObjectOf(key: { kty: string; crv: string; x: string; y: string }): KeyObject | undefined {
  try {
    return createPublicKey({ key, format: 'jwk' })
  } catch {
    return undefined
  }
}
