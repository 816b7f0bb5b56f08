import type { Access } from './access.ts'
import type { EnrolledDevice } from './devices.ts'
import type { Records } from '../records/records.ts'
import type { ServerKey } from '../devices/server-key.ts'
import { writeSigned } from './signed-writing.ts'

export interface RevocationOptions {
  readonly access: Access
  readonly records: Records
  readonly key: () => ServerKey
}

/** Another entry of the server's may come between: then it is written again after it. */
const MOST_ATTEMPTS = 5

/**
 * Writes a revocation into every record the device joined, and says which. A record that has it already is left alone, so it may be run
 * again: after a server that was stopped half-way, it is.
 */
export async function recordRevocation(id: string, options: RevocationOptions): Promise<string[]> {
  const { access, records } = options
  const device = access.device(id)
  if (device === undefined) return []
  const written: string[] = []
  for (const investigation of await records.ledger.investigations()) {
    if (await isToldIn(investigation, { device, ...options })) written.push(investigation)
  }
  access.devices.setRecorded(id)
  return written
}

/** What a server that was stopped in the middle of it left undone. */
export async function recordRevocationsLeft(options: RevocationOptions): Promise<void> {
  for (const { id } of options.access.devices.unrecorded()) await recordRevocation(id, options)
}

/** A record that came in later, as a package: it is told of every device that joined it and was put out before. */
export async function recordRevocationsIn(investigation: string, options: RevocationOptions): Promise<string[]> {
  const written: string[] = []
  for (const device of options.access.deviceList()) {
    if (device.revoked !== undefined && (await isToldIn(investigation, { device, ...options }))) written.push(device.id)
  }
  return written
}

async function isToldIn(
  investigation: string,
  { device, access, records, key }: RevocationOptions & { device: EnrolledDevice },
): Promise<boolean> {
  const { id, revoked } = device
  if (revoked === undefined) return false
  const hand = { device: 'server', role: 'server', name: 'Server', author: revoked.by, key: key() } as const
  const proposal = { kind: 'device.revoked', body: { device: id, reason: revoked.reason } } as const
  for (let attempt = 1; ; attempt += 1) {
    const { state } = await records.state(investigation)
    const joined = state.devices.get(id)
    if (joined === undefined) return false
    if (joined.revoked !== undefined) return true
    const { refused } = await writeSigned(records, { investigation, hand, nowMs: access.now(), proposal })
    if (refused[0] === undefined) return true
    if (attempt === MOST_ATTEMPTS)
      throw new Error(`Cannot write the revocation of ${id} because it was refused: got ${JSON.stringify(refused[0])}`)
  }
}
