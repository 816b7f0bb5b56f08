import { fromBase64url } from '@rillmark/casebook/devices/base64url.ts'
import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import type { SignatureCheck } from './signature-jobs.ts'

const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256' }
const DIGEST = { name: 'ECDSA', hash: 'SHA-256' }

/** Checks signatures by the cryptography built into browsers and Node, or in plain code where there is none. Each key is read once. */
export function webCryptoCheck(subtle: SubtleCrypto | undefined = globalThis.crypto?.subtle): SignatureCheck {
  if (subtle === undefined) return checkSignature
  const keys = new Map<string, Promise<CryptoKey | undefined>>()
  const keyOf = (key: DeviceKey): Promise<CryptoKey | undefined> => {
    const name = thumbprint(key)
    const known = keys.get(name) ?? importKey(subtle, key)
    keys.set(name, known)
    return known
  }
  return async ({ text, value, key }) => {
    const [signature, imported] = [fromBase64url(value), await keyOf(key)]
    if (signature === undefined || imported === undefined) return false
    try {
      return await subtle.verify(DIGEST, imported, Uint8Array.from(signature), new TextEncoder().encode(text))
    } catch {
      return false
    }
  }
}

/** Undefined for coordinates that are no point of the curve. */
async function importKey(subtle: SubtleCrypto, { kty, crv, x, y }: DeviceKey): Promise<CryptoKey | undefined> {
  try {
    return await subtle.importKey('jwk', { kty, crv, x, y }, ALGORITHM, false, ['verify'])
  } catch {
    return undefined
  }
}
