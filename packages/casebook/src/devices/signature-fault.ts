import type { Entry } from '../entry/entry.ts'
import type { DeviceKey } from './kinds.ts'
import { type CheckSignature, signedText, thumbprint } from './signed-text.ts'

export interface Signing {
  readonly checkSignature: CheckSignature
  /** the key its device joined with before this entry */
  readonly joinedKey: DeviceKey | undefined
}

/**
 * Why the signature of an entry does not hold; undefined where it does, or where an unsigned entry is in order. Give the entry as it was
 * written, not as it is read: that is what was signed.
 */
export function signatureFault(entry: Entry, { checkSignature, joinedKey }: Signing): string | undefined {
  const key = entry.kind === 'device.joined' ? entry.body.key : joinedKey
  const { signature } = entry
  if (entry.kind === 'device.joined' && joinedKey !== undefined) return `${entry.device} has joined before`
  if (key === undefined)
    return signature === undefined ? undefined : `it is signed, but ${entry.device} has not joined with a key`
  if (signature === undefined) return `it is not signed, but ${entry.device} joined with a key`
  if (signature.key !== thumbprint(key)) return `it is signed by another key than ${entry.device} joined with`
  return checkSignature({ text: signedText(entry), value: signature.value, key })
    ? undefined
    : `its signature by ${entry.device} does not fit what it says`
}
