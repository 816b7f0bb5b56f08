import { p256 } from '@noble/curves/nist.js'
import { utf8ToBytes } from '@noble/hashes/utils.js'
import { fromBase64url } from './base64url.ts'
import type { DeviceKey } from './kinds.ts'
import type { CheckSignature } from './signed-text.ts'

/** First byte of a point written with both its coordinates (SEC 1, section 2.3.3). */
const UNCOMPRESSED = 4

/** ECDSA on P-256 with SHA-256 (FIPS 186-5), in plain code. A page that only signs need not load it. */
export const checkSignature: CheckSignature = ({ text, value, key }) => {
  const [signature, point] = [fromBase64url(value), pointOf(key)]
  if (signature === undefined || point === undefined) return false
  try {
    // browsers sign with either of the two values of s
    return p256.verify(signature, utf8ToBytes(text), point, { lowS: false, prehash: true, format: 'compact' })
  } catch {
    return false
  }
}

function pointOf({ x, y }: DeviceKey): Uint8Array | undefined {
  const [across, up] = [fromBase64url(x), fromBase64url(y)]
  return across === undefined || up === undefined ? undefined : Uint8Array.of(UNCOMPRESSED, ...across, ...up)
}
