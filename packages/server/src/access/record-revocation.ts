import { serverDevice } from '@rillmark/casebook/devices/server-names.ts'
import type { Access } from './access.ts'
import type { EnrolledDevice } from './devices.ts'
import type { Records } from '../records/records.ts'
import type { ServerKey } from '../devices/server-key.ts'
import { writeSigned } from './signed-writing.ts'

export interface RevocationOptions {
  readonly access: Access
  readonly records: Records
  readonly key: () => ServerKey
  /** told what could not be written */
  readonly log: (error: unknown) => void
}

/** Where a revocation stands now, and where it could not be written yet: there it is tried again at the next start. */
export interface Recorded {
  readonly written: readonly string[]
  readonly left: readonly string[]
}

/** Another entry of the server's may come between: then it is written again after it. */
const MOST_ATTEMPTS = 5

/**
 * Writes a revocation into every record the device joined, and says which. A record that has it already is left alone, so it may be run
 * again: after a server that was stopped half-way, it is. One record that can't take it holds up none of the others.
 */
export async function recordRevocation(id: string, options: RevocationOptions): Promise<Recorded> {
  const { access, records } = options
  const device = access.device(id)
  const [written, left]: [string[], string[]] = [[], []]
  if (device === undefined) return { written, left }
  for (const investigation of await records.ledger.investigations()) {
    const told = await tellIn(investigation, { device, ...options })
    if (told === 'written') written.push(investigation)
    if (told === 'left') left.push(investigation)
  }
  access.devices.setRecorded(id, left.length === 0)
  return { written, left }
}

/** What a server that was stopped in the middle of it left undone. */
export async function recordRevocationsLeft(options: RevocationOptions): Promise<void> {
  for (const { id } of options.access.devices.unrecorded()) await recordRevocation(id, options)
}

/** A record that came in later, as a package: it is told of every device that joined it and was put out before. Whether anything was written. */
export async function recordRevocationsIn(investigation: string, options: RevocationOptions): Promise<boolean> {
  let isTold = false
  for (const device of options.access.deviceList()) {
    const told = await tellIn(investigation, { device, ...options })
    isTold ||= told === 'written'
    if (told === 'left') options.access.devices.setRecorded(device.id, false)
  }
  return isTold
}

type Telling = RevocationOptions & { readonly device: EnrolledDevice }

async function tellIn(investigation: string, options: Telling): Promise<'written' | 'left' | 'not joined'> {
  try {
    return await written(investigation, options)
  } catch (error) {
    options.log(error)
    return 'left'
  }
}

async function written(
  investigation: string,
  { device: { id, revoked }, access, records, key }: Telling,
): Promise<'written' | 'not joined'> {
  if (revoked === undefined) return 'not joined'
  const proposal = { kind: 'device.revoked', body: { device: id, reason: revoked.reason } } as const
  for (let attempt = 1; ; attempt += 1) {
    const { devices } = (await records.state(investigation)).state
    const joined = devices.get(id)
    if (joined === undefined) return 'not joined'
    if (joined.revoked !== undefined) return 'written'
    const own = key()
    const device = serverDevice(devices, own.thumbprint)
    const hand = { device, role: 'server', name: 'Server', author: revoked.by, key: own } as const
    const { refused } = await writeSigned(records, { investigation, hand, nowMs: access.now(), proposal })
    if (refused[0] === undefined) return 'written'
    if (attempt === MOST_ATTEMPTS)
      throw new Error(
        `Cannot write the revocation of ${id} into ${investigation} because it was refused: got ${JSON.stringify(refused[0])}`,
      )
  }
}
