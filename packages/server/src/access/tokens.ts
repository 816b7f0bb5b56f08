import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'

/** A secret handed out once; the server keeps its name and the hash of the rest. */
export interface Minted {
  /** `<id>.<secret>`, for the one it is given to */
  readonly token: string
  /** finds its line again; no secret */
  readonly id: string
  /** SHA-256 of the secret, hexadecimal */
  readonly hash: string
}

const ID_BYTES = 9
const SECRET_BYTES = 32
const TOKEN = /^(?<id>[A-Za-z0-9_-]{12})\.(?<secret>[A-Za-z0-9_-]{43})$/

/** Makes a token of 256 bits from the system's source of randomness. */
export function mintToken(): Minted {
  const id = randomBytes(ID_BYTES).toString('base64url')
  return { id, ...mintSecret(id) }
}

/** Makes a new secret for a name that stays. */
export function mintSecret(id: string): { token: string; hash: string } {
  const secret = randomBytes(SECRET_BYTES).toString('base64url')
  return { token: `${id}.${secret}`, hash: hashOf(secret) }
}

/** The parts of a token; undefined for text that is none. */
export function readToken(text: string): { id: string; secret: string } | undefined {
  const { id, secret } = TOKEN.exec(text)?.groups ?? {}
  return id === undefined || secret === undefined ? undefined : { id, secret }
}

/** Whether a secret is the one that was hashed; takes as long whether it is or not. */
export function isSecret(secret: string, hash: string): boolean {
  return timingSafeEqual(Buffer.from(hashOf(secret), 'hex'), Buffer.from(hash, 'hex'))
}

function hashOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex')
}
