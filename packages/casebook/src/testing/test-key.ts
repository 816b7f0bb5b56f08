import { p256 } from '@noble/curves/nist.js'
import { sha256 } from '@noble/hashes/sha2.js'
import { utf8ToBytes } from '@noble/hashes/utils.js'
import { toBase64url } from '../devices/base64url.ts'
import type { DeviceKey } from '../devices/kinds.ts'
import { signedText, thumbprint } from '../devices/signed-text.ts'

/** A key for tests that follows from a name, so that a failing test fails the same way again. Never a key of anybody. */
export function testKey(name: string) {
  const secret = sha256(utf8ToBytes(`a key for tests: ${name}`))
  const point = p256.getPublicKey(secret, false)
  const key: DeviceKey = {
    kty: 'EC',
    crv: 'P-256',
    x: toBase64url(point.subarray(1, 33)),
    y: toBase64url(point.subarray(33)),
  }
  /** r||s in base64url, by RFC 6979 */
  const signText = (text: string): string =>
    toBase64url(p256.sign(utf8ToBytes(text), secret, { lowS: false, prehash: true }))
  const sign = <E extends object>(entry: E): E & { signature: { key: string; value: string } } => ({
    ...entry,
    signature: { key: thumbprint(key), value: signText(signedText(entry)) },
  })
  /** the same key as that of whoever gives a receipt */
  const issuer = { publicKey: key, thumbprint: thumbprint(key), sign: signText }
  return { key, secret, sign, signText, issuer }
}
