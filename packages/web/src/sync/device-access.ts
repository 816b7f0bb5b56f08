import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import type { DeviceRole } from '@rillmark/casebook/devices/kinds.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { DeviceDatabase } from '../ledger/database.ts'
import type { DeviceDoor } from './device-door.ts'
import { deviceKey } from './device-key.ts'
import { type AsWhom, keepEnrolled, keepOpen } from './enrolled.ts'
import { becomeAnother, deviceId, sayAnother } from './identity.ts'
import { askServer, Refused, Unreachable } from './server-port.ts'
import { renewSession, sessionStanding, signSessionsAs } from './session.ts'

/** The roles a device can be invited in. */
export const INVITED_ROLES = ['sampler', 'reader', 'lead'] as const satisfies readonly DeviceRole[]
export type InvitedRole = (typeof INVITED_ROLES)[number]

/** What the server says of this device. `open`: it answers this machine only and asks nobody who they are. */
export type SessionHere =
  | { readonly kind: 'open' }
  | { readonly kind: 'in'; readonly device: string; readonly name: string; readonly role: InvitedRole }
  | { readonly kind: 'not in' }
  | { readonly kind: 'unreachable' }

/** A device the server knows; instants in UTC. */
export interface KnownDevice {
  readonly id: string
  readonly name: string
  readonly role: InvitedRole
  readonly enrolled: string
  readonly seen?: string
  readonly revoked?: { readonly at: string; readonly reason: string; readonly by: string }
  /** id of the invitation it came in by */
  readonly invitation?: string
  /** laboratory links it made that still take a receipt */
  readonly links: number
}

export interface Invitation {
  readonly id: string
  readonly url: string
  readonly expires: string
}

export type Answered<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly Issue[] }

/** `revoked`: the server knows the name or the key of this device and lets neither in; as another device it can join with the same invitation. */
export type Joined = Answered<{ readonly name: string; readonly role: InvitedRole }> | { readonly ok: 'revoked' }

/** What this device does about being let in. */
export interface DeviceAccess {
  readonly device: string
  readonly session: () => Promise<SessionHere>
  /** @param asked `anew`: with another name and key, after a revocation; everything then has to be loaded again */
  readonly join: (asked: { readonly token: string; readonly name: string; readonly anew?: boolean }) => Promise<Joined>
  readonly devices: () => Promise<Answered<readonly KnownDevice[]>>
  /** the thumbprint of the key the server signs with, in hexadecimal */
  readonly serverKey: () => Promise<Answered<string>>
  readonly invite: (asked: {
    readonly role: InvitedRole
    readonly name?: string
    readonly minutes: number
  }) => Promise<Answered<Invitation>>
  readonly revoke: (asked: {
    readonly device: string
    readonly reason: string
    /** with the laboratory links it made */
    readonly endLinks: boolean
  }) => Promise<Answered<unknown>>
}

export function deviceAccess({ door, device }: { door: DeviceDoor; device: string }): DeviceAccess {
  return {
    device,
    session: sessionHere,
    join: (asked) => join({ door, device, ...asked }),
    devices: () => answered(async () => (await askServer<{ devices: KnownDevice[] }>('/api/devices')).devices),
    serverKey: () => answered(async () => (await askServer<{ thumbprint: string }>('/api/server-key')).thumbprint),
    invite: (asked) => answered(() => askServer<Invitation>('/api/invitations', postJson(asked))),
    revoke: ({ device: id, ...asked }) =>
      answered(() => askServer(`/api/devices/${encodeURIComponent(id)}/revocation`, postJson(asked))),
  }
}

type SessionAnswer =
  | { readonly open: true }
  | { readonly device: string; readonly name: string; readonly role: InvitedRole }

async function sessionHere(): Promise<SessionHere> {
  try {
    const answer = await askServer<SessionAnswer>('/api/session')
    return 'open' in answer ? { kind: 'open' } : { kind: 'in', ...answer }
  } catch (error) {
    if (error instanceof Unreachable || error instanceof Refused)
      return { kind: sessionStanding.get() === 'not in' ? 'not in' : 'unreachable' }
    throw error
  }
}

/** Asks the server as whom this device writes, and keeps the answer; also where the answer to its joining was lost. */
export async function learnAsWhom(database: DeviceDatabase): Promise<AsWhom | undefined> {
  const here = await sessionHere()
  if (here.kind === 'open') {
    await keepOpen(database)
    return { role: 'lead' }
  }
  if (here.kind !== 'in') return undefined
  const { name, role } = here
  await keepEnrolled(database, { name, role })
  return { name, role }
}

/** Joins with an invitation: makes the key of this device, proves that it has it, and is in. */
async function join(asked: {
  door: DeviceDoor
  device: string
  token: string
  name: string
  anew?: boolean
}): Promise<Joined> {
  const { door, token, name, anew = false } = asked
  if ((crypto as { subtle?: SubtleCrypto }).subtle === undefined)
    return refused('this address', {
      expected: 'HTTPS, or the machine of the server: only there a browser makes keys',
      received: location.protocol,
    })
  const device = anew ? await anotherName(door, asked.device) : asked.device
  const { database } = door
  const key = await deviceKey(database).catch(() => undefined)
  if (key === undefined)
    return refused('the key of this device', { expected: 'to be made: press Join again', received: 'none' })
  const proof = await key.sign(canonicalJson({ token, device, key: key.publicKey }))
  const joined = await answered(() =>
    askServer<{ name: string; role: InvitedRole }>(
      '/api/enrolment',
      postJson({ token, device, name, key: key.publicKey, proof }),
    ),
  )
  const letIn = joined.ok ? joined : await inAlready(joined)
  if (letIn.ok !== true) return letIn
  sessionStanding.set('fine')
  await keepEnrolled(database, { name: letIn.value.name, role: letIn.value.role })
  return letIn
}

/** Once: a second try, after an answer that was lost, goes by the same name. */
async function anotherName(door: DeviceDoor, loadedAs: string): Promise<string> {
  const present = await deviceId(door.database)
  if (present !== loadedAs) return present
  const database = await door.apart()
  const device = await becomeAnother(database)
  // whether or not the server lets it in: nothing more may be written here under the old name
  door.goOnApart(database)
  signSessionsAs(device)
  sayAnother()
  return device
}

/** An answer may have been lost on its way: then the device is in, and only the invitation is used up. */
async function inAlready(refusal: Extract<Joined, { ok: false }>): Promise<Joined> {
  const renewed = await renewSession()
  if (renewed === 'not in' && refusal.issues.some(({ path }) => path === 'device')) return { ok: 'revoked' }
  if (renewed !== 'renewed') return refusal
  const here = await sessionHere()
  return here.kind === 'in' ? { ok: true, value: here } : refusal
}

async function answered<T>(ask: () => Promise<T>): Promise<Answered<T>> {
  try {
    return { ok: true, value: await ask() }
  } catch (error) {
    if (error instanceof Refused) return { ok: false, issues: error.issues }
    if (error instanceof Unreachable)
      return refused('', { expected: 'the server to answer', received: error.told ?? error.message })
    throw error
  }
}

function refused(
  path: string,
  stated: { expected: string; received: string },
): { ok: false; issues: readonly Issue[] } {
  return { ok: false, issues: [statedIssue(path, stated)] }
}

function postJson(body: unknown): RequestInit {
  return { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }
}
