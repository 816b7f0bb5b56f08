import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { makeSignal } from '../offline/signal.ts'

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

/**
 * Asks the server, and where it wants a session proves who this device is and asks once more. Sessions end by themselves; a person does not
 * notice. What is written here never waits for it.
 */
export async function fetchInSession(path: string, init?: RequestInit): Promise<Response> {
  const response = await fetch(path, init)
  if (response.status !== UNAUTHORISED) {
    if (response.ok) sessionStanding.set('fine')
    return response
  }
  return (await renewSession()) === 'renewed' ? fetch(path, init) : response
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

const UNAUTHORISED = 401

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
  return fetch(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
}
