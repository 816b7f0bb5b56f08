import { randomUUID } from 'node:crypto'
import type { DeviceRole } from '@rillmark/casebook/devices/kinds.ts'
import { signedText } from '@rillmark/casebook/devices/signed-text.ts'
import { draftEntry, type Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { ServerKey } from '../devices/server-key.ts'
import type { AppendOutcome, Records } from '../records/records.ts'

/** Who writes by the server's hand: the server itself, or a laboratory through its link. */
export interface Hand {
  readonly device: string
  readonly role: DeviceRole
  /** the device's, when it joins */
  readonly name: string
  readonly author: string
  readonly key: ServerKey
}

export interface Written {
  readonly investigation: string
  readonly hand: Hand
  /** milliseconds since 1970 */
  readonly nowMs: number
  readonly proposal: Proposal
  /** its id, where sending it again must not write it again */
  readonly id?: string
}

/** Writes an entry signed with the server's key; the device joins the record first, where it has not yet. */
export async function writeSigned(records: Records, written: Written): Promise<AppendOutcome> {
  const { investigation } = written
  const { state } = await records.state(investigation)
  return records.append(investigation, signedEntries(state, written))
}

function signedEntries(state: InvestigationState, { investigation, hand, nowMs, proposal, id }: Written): Entry[] {
  const { device, role, name, author, key } = hand
  const now = localInstant(nowMs)
  let sequence = lastSequence(state, device)
  const signed = (each: Proposal, itsId: string): Entry => {
    sequence += 1
    const entry = draftEntry({ investigation, author, device, deviceSequence: sequence, now, newId: () => itsId }, each)
    return { ...entry, signature: { key: key.thumbprint, value: key.sign(signedText(entry)) } }
  }
  const joins: Proposal = { kind: 'device.joined', body: { name, role, key: key.publicKey } }
  const first = state.devices.has(device) ? [] : [signed(joins, randomUUID())]
  return [...first, signed(proposal, id ?? randomUUID())]
}

function lastSequence({ record }: InvestigationState, device: string): number {
  return Math.max(0, ...record.entries.flatMap((each) => (each.device === device ? [each.deviceSequence] : [])))
}

function localInstant(nowMs: number): { instant: string; offset: string } {
  const now = new Date(nowMs)
  const minutes = -now.getTimezoneOffset()
  const two = (value: number): string => String(Math.trunc(Math.abs(value))).padStart(2, '0')
  return { instant: now.toISOString(), offset: `${minutes < 0 ? '-' : '+'}${two(minutes / 60)}:${two(minutes % 60)}` }
}
