import { p256 } from '@noble/curves/nist.js'
import { sha256 } from '@noble/hashes/sha2.js'
import { utf8ToBytes } from '@noble/hashes/utils.js'
import { toBase64url } from '@rillmark/casebook/devices/base64url.ts'
import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { signedText, thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'

const COORDINATE_BYTES = 32

/**
 * The key of a device of the example. It follows from the device's name, so that the example is the same every time; whoever reads this can
 * sign with it, and nothing that matters may ever be signed so.
 */
function demoKey(device: string) {
  const secret = sha256(utf8ToBytes(`the worked example, no secret: ${device}`))
  const point = p256.getPublicKey(secret, false)
  const key: DeviceKey = {
    kty: 'EC',
    crv: 'P-256',
    x: toBase64url(point.subarray(1, 1 + COORDINATE_BYTES)),
    y: toBase64url(point.subarray(1 + COORDINATE_BYTES)),
  }
  return { key, secret, name: thumbprint(key) }
}

export const demoPublicKey = (device: string): DeviceKey => demoKey(device).key

/** The entries signed as their devices would, each from the entry on by which it joined. */
export function signedByDevices(entries: readonly Entry[]): readonly Entry[] {
  const joined = new Set<string>()
  return entries.map((entry) => {
    if (entry.kind === 'device.joined') joined.add(entry.device)
    return joined.has(entry.device) ? signedByDevice(entry) : entry
  })
}

const keys = new Map<string, ReturnType<typeof demoKey>>()

/** One entry signed by its device, anew where it was. RFC 6979: the same entry gets the same signature. */
export function signedByDevice<E extends Entry>(entry: E): E & Signed {
  const by = keys.get(entry.device) ?? demoKey(entry.device)
  keys.set(entry.device, by)
  const text = utf8ToBytes(signedText(entry))
  const value = toBase64url(p256.sign(text, by.secret, { lowS: false, prehash: true }))
  return { ...entry, signature: { key: by.name, value } }
}

interface Signed {
  readonly signature: { readonly key: string; readonly value: string }
}
