import { KeyObject } from 'node:crypto'
import {
  BasicConstraintsExtension,
  ExtendedKeyUsage,
  ExtendedKeyUsageExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  SubjectAlternativeNameExtension,
  type X509Certificate,
  X509CertificateGenerator,
} from '@peculiar/x509'
import type { MachineNames } from './machine-names.ts'
import { nameConstraints } from './name-constraints.ts'

/** A certificate with its key, in memory. */
export interface Issued {
  readonly certificate: X509Certificate
  readonly keys: CryptoKeyPair
}

const DAY_MS = 86_400_000
/** Phones take certificates of at most 398 days from most authorities (common practice, from memory). */
const SERVER_DAYS = 365
const AUTHORITY_DAYS = 5 * 365
/** Valid from before it was made: a device whose clock is behind must still be able to come in. */
const SERVER_BACKDATED_DAYS = 30
const AUTHORITY_BACKDATED_DAYS = 365

const P256 = { name: 'ECDSA', namedCurve: 'P-256' } as const
const SIGNING = { name: 'ECDSA', hash: 'SHA-256' } as const

/** An authority that may vouch for local names only: what a phone is told to trust, once. */
export async function issueAuthority(own: MachineNames, nowMs: number): Promise<Issued> {
  const keys = await crypto.subtle.generateKey(P256, true, ['sign', 'verify'])
  const name = own.names.find((each) => each !== 'localhost') ?? 'this machine'
  const certificate = await X509CertificateGenerator.createSelfSigned({
    name: `CN=Rillmark on ${name} since ${new Date(nowMs).toISOString().slice(0, 10)}`,
    notBefore: new Date(nowMs - AUTHORITY_BACKDATED_DAYS * DAY_MS),
    notAfter: new Date(nowMs + AUTHORITY_DAYS * DAY_MS),
    signingAlgorithm: SIGNING,
    keys,
    extensions: [
      new BasicConstraintsExtension(true, 0, true),
      new KeyUsagesExtension(KeyUsageFlags.keyCertSign, true),
      nameConstraints(own),
    ],
  })
  return { certificate, keys }
}

/** The certificate the server shows, for every name and address of its machine. */
export async function issueServer(
  { names, addresses }: MachineNames,
  { authority, nowMs }: { authority: Issued; nowMs: number },
): Promise<Issued> {
  const keys = await crypto.subtle.generateKey(P256, true, ['sign', 'verify'])
  const certificate = await X509CertificateGenerator.create({
    subject: 'CN=Rillmark',
    issuer: authority.certificate.subject,
    notBefore: new Date(nowMs - SERVER_BACKDATED_DAYS * DAY_MS),
    notAfter: new Date(nowMs + SERVER_DAYS * DAY_MS),
    signingAlgorithm: SIGNING,
    publicKey: keys.publicKey,
    signingKey: authority.keys.privateKey,
    extensions: [
      new BasicConstraintsExtension(false, undefined, true),
      new KeyUsagesExtension(KeyUsageFlags.digitalSignature, true),
      new ExtendedKeyUsageExtension([ExtendedKeyUsage.serverAuth]),
      new SubjectAlternativeNameExtension([
        ...names.map((value) => ({ type: 'dns' as const, value })),
        ...addresses.map((value) => ({ type: 'ip' as const, value })),
      ]),
    ],
  })
  return { certificate, keys }
}

/** The private half as PEM (PKCS #8). */
export function privatePem({ privateKey }: CryptoKeyPair): string {
  return KeyObject.from(privateKey).export({ type: 'pkcs8', format: 'pem' })
}

/** A pair of keys for signing, from its private half. */
export async function keysOf(privateKey: KeyObject): Promise<CryptoKeyPair> {
  const jwk = privateKey.export({ format: 'jwk' })
  const { d: _, ...publicJwk } = jwk
  const brought = (key: object, use: 'sign' | 'verify') =>
    crypto.subtle.importKey('jwk', key as JsonWebKey, P256, true, [use])
  return { privateKey: await brought(jwk, 'sign'), publicKey: await brought(publicJwk, 'verify') }
}
