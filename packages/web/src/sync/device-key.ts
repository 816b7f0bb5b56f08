import type { DeviceDatabase } from '../ledger/database.ts'

/** The public half of a device's key, as a JSON Web Key (RFC 7517) with nothing but the key in it. */
export interface PublicKey {
  readonly kty: 'EC'
  readonly crv: 'P-256'
  readonly x: string
  readonly y: string
}

/** The key of this device: made here, never to leave it. */
export interface DeviceKey {
  readonly publicKey: PublicKey
  /** RFC 7638 thumbprint of the public key, as 64 hexadecimal digits */
  readonly thumbprint: string
  /** ECDSA P-256 over the SHA-256 of the UTF-8 text, as 64 bytes r and s (IEEE P1363) in base64url */
  readonly sign: (text: string) => Promise<string>
}

const CURVE = { name: 'ECDSA', namedCurve: 'P-256' } as const
const SIGNING = { name: 'ECDSA', hash: 'SHA-256' } as const

/**
 * The key of this device, made when first asked for; the private half can't be read out, not even by this app. Undefined where the browser
 * has no Web Crypto, which is at every address that is neither HTTPS nor this machine.
 */
export async function deviceKey(database: DeviceDatabase): Promise<DeviceKey | undefined> {
  const { subtle } = crypto as { subtle?: SubtleCrypto }
  if (subtle === undefined) return undefined
  const { privateKey, publicKey } = (await database.get('keys', 'device')) ?? (await madeKey(database, subtle))
  return {
    publicKey,
    thumbprint: await thumbprintOf(publicKey, subtle),
    sign: async (text) =>
      base64url(new Uint8Array(await subtle.sign(SIGNING, privateKey, new TextEncoder().encode(text)))),
  }
}

export interface KeyPair {
  readonly privateKey: CryptoKey
  readonly publicKey: PublicKey
}

/** A pair whose private half can't be read out. */
export async function makePair(subtle: SubtleCrypto): Promise<KeyPair> {
  const { privateKey, publicKey } = await subtle.generateKey(CURVE, false, ['sign', 'verify'])
  const { x = '', y = '' } = await subtle.exportKey('jwk', publicKey)
  return { privateKey, publicKey: { kty: 'EC', crv: 'P-256', x, y } }
}

/** Makes a key and keeps it, unless another tab was quicker: then that one counts. */
async function madeKey(database: DeviceDatabase, subtle: SubtleCrypto): Promise<KeyPair> {
  const made = await makePair(subtle)
  const transaction = database.transaction('keys', 'readwrite', { durability: 'strict' })
  const kept = (await transaction.store.get('device')) ?? made
  await transaction.store.put(kept, 'device')
  await transaction.done
  return kept
}

/** The members RFC 7638 asks of an EC key, in the order of their names and without spaces. */
async function thumbprintOf({ crv, kty, x, y }: PublicKey, subtle: SubtleCrypto): Promise<string> {
  const digest = await subtle.digest('SHA-256', new TextEncoder().encode(JSON.stringify({ crv, kty, x, y })))
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('')
}

function base64url(bytes: Uint8Array): string {
  return btoa(String.fromCharCode(...bytes))
    .replaceAll('+', '-')
    .replaceAll('/', '_')
    .replaceAll('=', '')
}
