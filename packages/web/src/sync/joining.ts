import { draftEntry, type Proposal } from '@rillmark/casebook/entry/draft.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Outbox, Pending } from '@rillmark/casebook/ledger/ledger.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { DeviceKey } from './device-key.ts'
import type { AsWhom } from './enrolled.ts'

const LONGEST_NAME = 120

/** What a device says of itself before the first it writes in an investigation. */
export function joiningOf(
  { key, as }: { readonly key: DeviceKey; readonly as: AsWhom },
  author: string,
): Proposal<'device.joined'> {
  const name = as.name ?? `Device of ${author}`.slice(0, LONGEST_NAME)
  return { kind: 'device.joined', body: { name, role: as.role, key: key.publicKey } }
}

export interface Waiting {
  readonly outbox: Outbox
  readonly device: string
  /** everything here that the server has not confirmed */
  readonly pending: readonly Pending[]
  readonly key: DeviceKey
  readonly as: AsWhom
  readonly now: () => { readonly instant: string; readonly offset: string }
  readonly newId: () => string
  readonly seen: number
  readonly sign: (entry: Entry) => Promise<Entry>
  readonly keep: (entry: Entry) => Promise<void>
  readonly release: (ids: readonly string[]) => Promise<void>
}

/**
 * What was written before it was known as whom this device writes gets the entry by which it joins, under the number that was left free for
 * it; one that says another role than the server let it in with, and that the server has not got, is written anew. Where it may only read,
 * what it wrote is refused with that reason. Whatever moment it stops at, it goes on the next time.
 */
export async function joinWhatWaits(waiting: Waiting): Promise<void> {
  const { outbox, device, pending, as } = waiting
  const own = pending.flatMap(({ entry, refused }) =>
    entry.device === device ? [{ entry, refused: refused !== undefined }] : [],
  )
  const [first] = own
  if (first === undefined) return
  const said = own.flatMap(({ entry }) => (entry.kind === 'device.joined' ? [entry] : []))
  const untrue = said.filter(({ body }) => body.role !== as.role)
  const written = own.filter(({ entry, refused }) => entry.kind !== 'device.joined' && !refused)
  // first, for no number is there twice
  if (untrue.length > 0) await waiting.release(untrue.map(({ id }) => id))
  if (as.role === 'reader')
    for (const { entry } of written)
      await outbox.refuse(entry.id, [
        issue('device', { expected: 'a device that may write', received: 'a reader, as which it has joined' }),
      ])
  else if (said.length === untrue.length)
    await waiting.keep(await joined(waiting, { first: first.entry, number: untrue[0]?.deviceSequence }))
}

async function joined(
  { device, key, as, now, newId, seen, sign }: Waiting,
  { first, number }: { first: Entry; number: number | undefined },
): Promise<Entry> {
  const { investigation, author } = first
  const deviceSequence = number ?? first.deviceSequence - 1
  const desk = { investigation, author, device, deviceSequence, now: now(), newId, seen }
  return sign(draftEntry(desk, joiningOf({ key, as }, author)))
}
