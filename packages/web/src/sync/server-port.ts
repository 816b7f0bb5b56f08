import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { measureClock } from '../store/right-clock.ts'
import type { Asking } from './patient-fetch.ts'
import { fetchInSession } from './session.ts'

export interface Pushed {
  readonly accepted: readonly { readonly id: string; readonly sequence: number }[]
  /** second accounts: in the record under the number of their contest; absent from a server older than these */
  readonly contested?: readonly { readonly id: string; readonly sequence: number }[]
  readonly refused: readonly { readonly id: string; readonly issues: readonly Issue[] }[]
  readonly serverNow?: string
  readonly head: Head
}

export interface ServerSummary {
  readonly id: string
  readonly title: string
  readonly locality?: string
  readonly openedOn?: string
  readonly head: Head
}

/** What syncing needs of the server. */
export interface ServerPort {
  /** `latest`: the latest instant of all that waits from the same setting of the clock, of which this is a part */
  readonly push: (
    investigation: string,
    entries: readonly Entry[],
    told?: { readonly latest: string },
  ) => Promise<Pushed>
  readonly pull: (
    investigation: string,
    after: number,
  ) => Promise<{ readonly links: readonly unknown[]; readonly head: Head }>
}

/** The server could not be reached, or is in no state to answer: try again later. */
export class Unreachable extends Error {
  override readonly name = 'Unreachable'
  /** what a person should be told of it, where it is not the network */
  readonly told: string | undefined

  constructor(reason: string, told?: string) {
    super(reason)
    this.told = told
  }
}

/** The server answered that it can't take the request. */
export class Refused extends Error {
  override readonly name = 'Refused'
  readonly issues: readonly Issue[]

  constructor(issues: readonly Issue[]) {
    super(
      issues.map(({ path, expected, received }) => `${path}: expected ${expected}, received ${received}`).join('; '),
    )
    this.issues = issues
  }
}

const UNAUTHORISED = 401
/** Insufficient Storage (RFC 4918, section 11.5). */
const NO_ROOM = 507

/** Asks the server for JSON. @throws Unreachable | Refused */
export async function askServer<T>(path: string, init?: Asking): Promise<T> {
  const response = await fetchInSession(path, init).catch((error: unknown) => {
    throw new Unreachable(String(error))
  })
  if (response.status === UNAUTHORISED)
    throw new Unreachable('the server does not let this device in', 'the server does not let this device in')
  if (response.status === NO_ROOM) throw new Unreachable('the server answered 507', 'the server has no room for them')
  if (response.status >= 500 || response.status === 429) throw new Unreachable(`the server answered ${response.status}`)
  const body: unknown = await response.json().catch((error: unknown) => {
    if (!(error instanceof SyntaxError)) throw new Unreachable(String(error))
    throw new Unreachable('the answer did not come from the server of this app')
  })
  if (!response.ok)
    throw new Refused(issuesIn(body) ?? [statedIssue('', { expected: 'an answer', received: response.status })])
  return body as T
}

function postJson(body: unknown): RequestInit {
  return { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }
}

export const httpServer: ServerPort = {
  push: async (investigation, entries, told) => {
    const deviceNow = new Date().toISOString()
    const sent = { ...postJson({ entries, deviceNow, ...told }), again: true }
    const pushed = await askServer<Pushed>(`${at(investigation)}/entries`, sent)
    if (pushed.serverNow !== undefined) measureClock({ serverNow: pushed.serverNow, nowMs: Date.now() })
    return pushed
  },
  pull: (investigation, after) => askServer(`${at(investigation)}/entries?after=${after}`, { again: true }),
}

export const at = (investigation: string): string => `/api/investigations/${encodeURIComponent(investigation)}`

function issuesIn(body: unknown): readonly Issue[] | undefined {
  if (typeof body !== 'object' || body === null || !('issues' in body) || !Array.isArray(body.issues)) return undefined
  return body.issues as Issue[]
}
