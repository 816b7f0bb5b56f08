import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { makeSignal } from '../offline/signal.ts'
import { type Asking, fetchPatiently } from './patient-fetch.ts'

/** Who this device is to the server, and how it proves it. */
export interface SessionSigner {
  readonly device: string
  /** a signature in base64url; undefined where this browser can hold no key */
  readonly sign: (text: string) => Promise<string | undefined>
}

/**
 * `fine`: nothing speaks against this device, as far as it knows. `not in`: the server lets in only devices that have joined, and this one has not
 * or was revoked; it says no more, so that nobody learns from it which devices there are.
 */
export type SessionStanding = 'fine' | 'not in'

export const sessionStanding = makeSignal<SessionStanding>('fine')

export type Renewed = 'renewed' | 'not in' | 'unreachable'

let signer: SessionSigner | undefined
let renewing: Promise<Renewed> | undefined

export function signSessionsWith(next: SessionSigner): void {
  signer = next
}

/** This browser goes by another name from now on. */
export function signSessionsAs(device: string): void {
  if (signer !== undefined) signer = { ...signer, device }
}

/**
 * Asks the server. Where it wants a session, it is told who this device is and asked once more; where it wants this very request proved by the
 * key of this device, that is done too. Sessions end by themselves; a person does not notice. What is written here never waits for it.
 */
export async function fetchInSession(path: string, init?: Asking): Promise<Response> {
  const first = await fetchPatiently(path, init)
  const response = isNotIn(first) && (await renewSession()) === 'renewed' ? await fetchPatiently(path, init) : first
  const nonce = response.headers.get(CHALLENGE)
  const proof = nonce === null ? undefined : await proofOf(path, { init, nonce })
  const answer = proof === undefined ? response : await fetchPatiently(path, { ...init, headers: proof })
  if (answer.ok) sessionStanding.set('fine')
  return answer
}

const UNAUTHORISED = 401
/** What the server wants signed, of whoever has a session, for what gives power to others. */
const CHALLENGE = 'rillmark-challenge'
const PROOF = 'rillmark-proof'

function isNotIn({ status, headers }: Response): boolean {
  return status === UNAUTHORISED && !headers.has(CHALLENGE)
}

/** The headers of a request with the signature of it; undefined where this browser can hold no key. */
async function proofOf(
  path: string,
  { init, nonce }: { init: RequestInit | undefined; nonce: string },
): Promise<Headers | undefined> {
  if (signer === undefined) return undefined
  const bytes = await new Response(init?.body ?? null).arrayBuffer()
  const body = hexOf(await crypto.subtle.digest('SHA-256', bytes))
  const { device, sign } = signer
  const proof = await sign(canonicalJson({ device, nonce, method: init?.method ?? 'GET', path, body }))
  if (proof === undefined) return undefined
  const headers = new Headers(init?.headers)
  headers.set(PROOF, `${nonce}.${proof}`)
  return headers
}

function hexOf(bytes: ArrayBuffer): string {
  return Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('')
}

/** Signs the server's challenge with the key of this device; one at a time, whoever asks. */
export function renewSession(): Promise<Renewed> {
  renewing ??= renew()
    .catch((): Renewed => 'unreachable')
    .then((outcome) => {
      renewing = undefined
      if (outcome !== 'unreachable') sessionStanding.set(outcome === 'renewed' ? 'fine' : 'not in')
      return outcome
    })
  return renewing
}

async function renew(): Promise<Renewed> {
  if (signer === undefined) return 'not in'
  const { device } = signer
  const asked = await postJson('/api/session/challenge', { device })
  if (!asked.ok) return asked.status === UNAUTHORISED ? 'not in' : 'unreachable'
  const { nonce } = (await asked.json()) as { nonce: string }
  const proof = await signer.sign(canonicalJson({ device, nonce }))
  if (proof === undefined) return 'not in'
  const answer = await postJson('/api/session', { device, nonce, proof })
  if (answer.ok) return 'renewed'
  return answer.status === UNAUTHORISED ? 'not in' : 'unreachable'
}

function postJson(path: string, body: unknown): Promise<Response> {
  const headers = { 'content-type': 'application/json' }
  return fetchPatiently(path, { method: 'POST', headers, body: JSON.stringify(body), again: true })
}
