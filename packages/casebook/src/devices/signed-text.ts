import { canonicalJson } from '../chain/canonical.ts'
import { sha256Of } from '../chain/link.ts'
import type { DeviceKey } from './kinds.ts'

/** What a device signs: the canonical JSON (RFC 8785) of the entry without its signature. */
export function signedText(entry: { readonly signature?: unknown }): string {
  const { signature: _, ...said } = entry
  return canonicalJson(said)
}

/** RFC 7638 thumbprint of a key (SHA-256, hexadecimal): the name by which signatures point at it. */
export function thumbprint({ crv, kty, x, y }: DeviceKey): string {
  return sha256Of(canonicalJson({ crv, kty, x, y }))
}

/** Whether `value` (r||s in base64url) is a signature of the text (UTF-8) by the key. False, never a throw, for what is none. */
export type CheckSignature = (signed: {
  readonly text: string
  readonly value: string
  readonly key: DeviceKey
}) => boolean
