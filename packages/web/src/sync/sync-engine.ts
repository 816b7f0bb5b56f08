import { byOneClock } from '@rillmark/casebook/chain/clock.ts'
import type { Head, Link } from '@rillmark/casebook/chain/link.ts'
import { type Forerunners, verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { signedText } from '@rillmark/casebook/devices/signed-text.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { LedgerCopy, Outbox } from '@rillmark/casebook/ledger/ledger.ts'
import { type Pushed, type ServerPort, Unreachable } from './server-port.ts'

export interface SyncParts {
  readonly investigation: string
  readonly ledger: LedgerCopy
  readonly outbox: Outbox
  readonly server: ServerPort
  /** what waits stays here for now: nothing may be sent before it is known as whom */
  readonly onlyPull?: boolean
}

/** How one exchange ended. `parted`: the two hold different records and neither may overwrite the other. */
export type Exchange =
  | { readonly kind: 'done' }
  | { readonly kind: 'unreachable'; readonly reason: string }
  | { readonly kind: 'parted'; readonly reason: string }

/** Small, so that a device that was away for days does not hold up the others that sync with the same server. */
const BATCH = 50

/**
 * One whole exchange with the server: pull what is new, push what waits, pull back what was pushed. Everything may stop or repeat at
 * any point: an entry leaves the outbox only when a verified link with its id is in the ledger.
 */
export async function exchange(parts: SyncParts): Promise<Exchange> {
  try {
    const pulled = await pullAll(parts)
    if (pulled !== undefined) return { kind: 'parted', reason: pulled }
    if (parts.onlyPull === true) return { kind: 'done' }
    for (let next = await nextBatch(parts); next.batch.length > 0; next = await nextBatch(parts)) {
      const { batch, latest } = next
      const { accepted, refused } = await parts.server.push(parts.investigation, batch, { latest })
      for (const { id, issues } of refused) await parts.outbox.refuse(id, issues)
      const reason = await pullAll(parts)
      if (reason !== undefined) return { kind: 'parted', reason }
      await releaseSecondAccounts(parts, accepted)
      // what it has not looked at yet is sent again
      const taken = new Set([...accepted, ...refused].map(({ id }) => id))
      if (taken.size === 0) return { kind: 'unreachable', reason: 'the server took none of what was sent' }
      if (refused.length === 0 && (await stillWaiting(parts, accepted)))
        return { kind: 'unreachable', reason: 'the server took entries and did not give them back' }
    }
    return { kind: 'done' }
  } catch (error) {
    if (error instanceof Unreachable) return { kind: 'unreachable', reason: error.message }
    throw error
  }
}

/**
 * The first that wait, of one device and one setting of its clock, with the latest instant of all of these: a clock that was set back is
 * measured by it, so every batch must say the same. The latest is sent last, so a page reloaded in between says it again.
 */
async function nextBatch({ outbox, investigation }: SyncParts) {
  const waiting = (await outbox.pending(investigation)).flatMap(({ entry, refused }) =>
    refused === undefined ? [entry] : [],
  )
  const { run, latest } = byOneClock(waiting.filter(({ device }) => device === waiting[0]?.device))
  return { batch: run.slice(0, BATCH), latest }
}

async function stillWaiting(
  { outbox, investigation }: SyncParts,
  batch: readonly { readonly id: string }[],
): Promise<boolean> {
  const waiting = new Set((await outbox.pending(investigation)).map(({ entry }) => entry.id))
  return batch.some(({ id }) => waiting.has(id))
}

/** Pulls to the server's head; says why if what came does not continue what is held. */
async function pullAll(parts: SyncParts): Promise<string | undefined> {
  const { investigation, ledger, server } = parts
  for (;;) {
    const held = await ledger.head(investigation)
    const { links, head } = await server.pull(investigation, held.sequence)
    const forerunners = await forerunnersOf(links, { held, ledger, investigation })
    const reason = partingReason(held, { links, head, investigation, forerunners })
    if (reason !== undefined) return reason
    const sound = links as readonly Link[]
    const altered = await alteredReason(parts, sound)
    if (altered !== undefined) return altered
    await ledger.commit(sound)
    await releaseConfirmed(parts)
    if (held.sequence + sound.length >= head.sequence) return undefined
  }
}

/**
 * What of the record held here could clash with what came, looked up and not read through: so that pulling finds all that a walk along the
 * whole record finds. What came may be of any shape.
 */
async function forerunnersOf(
  came: readonly unknown[],
  { held, ledger, investigation }: { held: Head; ledger: LedgerCopy; investigation: string },
): Promise<Forerunners | undefined> {
  if (held.sequence === 0 || came.length === 0) return undefined
  const [last] = await ledger.read(investigation, { after: held.sequence - 1, limit: 1 })
  const entries = came.map((one) => (one as { entry?: { id?: unknown; device?: unknown } } | null)?.entry)
  const texts = (all: readonly unknown[]): string[] => [...new Set(all)].filter((one) => typeof one === 'string')
  const ids = await ledger.sequencesOf(investigation, texts(entries.map((entry) => entry?.id)))
  const devices = texts(entries.map((entry) => entry?.device))
  return {
    received: last?.received ?? '',
    deviceSequences: await ledger.numbersOf(investigation, { devices, upTo: held.sequence }),
    ids: new Set([...ids].flatMap(([id, sequence]) => (sequence <= held.sequence ? [id] : []))),
  }
}

function partingReason(
  held: Head,
  asked: {
    links: readonly unknown[]
    head: Head
    investigation: string
    forerunners: Forerunners | undefined
  },
): string | undefined {
  const { links, head, investigation, forerunners } = asked
  if (head.sequence < held.sequence) return `the server ends at entry ${head.sequence}, this device at ${held.sequence}`
  if (links.length === 0) return head.hash === held.hash ? undefined : `entry ${held.sequence} differs`
  const verdict = verifyChain(links, {
    investigation,
    after: held,
    forerunners,
    head: links.length === head.sequence - held.sequence ? head : undefined,
  })
  return verdict.sound ? undefined : `entry ${verdict.sequence}: ${verdict.reason}`
}

/**
 * A signed entry of this device that came back otherwise than it was written. The copy here may then be the only true one, so it is not let
 * go of and what came is not kept.
 */
async function alteredReason(
  { outbox, investigation }: SyncParts,
  links: readonly Link[],
): Promise<string | undefined> {
  const waiting = new Map((await outbox.pending(investigation)).map(({ entry }) => [entry.id, entry]))
  if (waiting.size === 0) return undefined
  for (const { sequence, entry } of links)
    for (const came of entry.kind === 'entry.contested' ? [entry, entry.body.entry as Entry] : [entry]) {
      const own = waiting.get(came.id)
      if (own?.signature !== undefined && !isSame(own, came))
        return `entry ${sequence} is not as it was signed on this device`
    }
  return undefined
}

function isSame(own: Entry, came: Entry): boolean {
  return own.signature?.value === came.signature?.value && signedText(own) === signedText(came)
}

/**
 * An entry the server kept as a second account is in the record under the id of the link that carries it: it leaves the outbox when that
 * link is held here. The server says where; asked again after a kill, it says so again.
 */
async function releaseSecondAccounts(
  { outbox, ledger, investigation }: SyncParts,
  accepted: Pushed['accepted'],
): Promise<void> {
  const waiting = new Set((await outbox.pending(investigation)).map(({ entry }) => entry.id))
  for (const { id, sequence } of accepted.filter((each) => waiting.has(each.id))) {
    const [link] = await ledger.read(investigation, { after: sequence - 1, limit: 1 })
    if (link?.entry.kind === 'entry.contested' && link.entry.body.entry.id === id) await outbox.release([id])
  }
}

async function releaseConfirmed({ outbox, ledger, investigation }: SyncParts): Promise<void> {
  const ids = (await outbox.pending(investigation)).map(({ entry }) => entry.id)
  const confirmed = await ledger.sequencesOf(investigation, ids)
  if (confirmed.size > 0) await outbox.release([...confirmed.keys()])
}
