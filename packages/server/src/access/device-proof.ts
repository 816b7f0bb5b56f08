import { createPublicKey } from 'node:crypto'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { deviceKey, type DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import * as z from 'zod'
import { quickSignatureCheck } from '../devices/check-signature.ts'

/** The public half of a device's key, a point of the curve. */
export const deviceKeySchema = deviceKey.refine(isOnCurve, 'a point of the curve P-256')

/** 64 bytes r and s (IEEE P1363) in base64url. */
export const proofSchema = z.string().regex(/^[A-Za-z0-9_-]{86}$/, 'a signature: 64 bytes in base64url')

const check = quickSignatureCheck()

/** Whether a signature over the canonical JSON of a statement was made with the private half of a key. */
export function isProof(statement: object, { key, proof }: { key: DeviceKey; proof: string }): boolean {
  return check({ text: canonicalJson(statement), value: proof, key })
}

function isOnCurve(key: DeviceKey): boolean {
  try {
    createPublicKey({ key: { ...key }, format: 'jwk' })
    return true
  } catch {
    return false
  }
}
