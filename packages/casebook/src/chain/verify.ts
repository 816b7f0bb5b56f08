import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import { issueLine } from '@rillmark/science/catalogue/issue.ts'
import type { DeviceKey } from '../devices/kinds.ts'
import { signatureFault } from '../devices/signature-fault.ts'
import type { CheckSignature } from '../devices/signed-text.ts'
import type { Entry } from '../entry/entry.ts'
import { parseEntry } from '../entry/parse-entry.ts'
import { emptyHead, type Head, type Link, linkEnvelopeSchema, linkHash } from './link.ts'

/**
 * What a walk along a record found: sound up to its head, or the first broken link and why. Entries are counted as signed and unsigned
 * where their signatures were checked.
 */
export type Verdict =
  | { readonly sound: true; readonly head: Head; readonly signed?: number; readonly unsigned?: number }
  | { readonly sound: false; readonly sequence: number; readonly reason: string; readonly lastSound: Head }

/** What a record holds up to a head, as far as what follows may clash with it. */
export interface Forerunners {
  /** when its last link was received */
  readonly received: string
  /** the highest number of each device that writes on */
  readonly deviceSequences: ReadonlyMap<string, number>
  /** those ids of what follows that were used up to there */
  readonly ids?: ReadonlySet<string>
}

export interface Expectation {
  readonly investigation: string
  /** a head known from elsewhere (a printed report, a receipt): catches a record cut short or rewritten whole */
  readonly head?: Head | undefined
  /** continue from this head instead of the beginning */
  readonly after?: Head | undefined
  /** with `after`: without it, times, numbers and ids are held against what is walked here only */
  readonly forerunners?: Forerunners | undefined
  /** checks signatures too: who wrote each entry, not only that nothing was changed since */
  readonly checkSignature?: CheckSignature | undefined
  /** with `after`: the keys of the devices that joined before it */
  readonly keys?: ReadonlyMap<string, DeviceKey> | undefined
  /** with `after`: the devices revoked before it */
  readonly revoked?: ReadonlySet<string> | undefined
}

/**
 * Walks the links and names the first that is broken: shape, number, tie, hash, duplicate id, wrong investigation, device order,
 * received earlier than its forerunner. With a known head it also catches truncation and a record rewritten with fresh hashes.
 */
export function verifyChain(links: Iterable<unknown>, expected: Expectation): Verdict {
  const walk: Walk = {
    head: expected.after ?? emptyHead(expected.investigation),
    received: expected.forerunners?.received ?? '',
    ids: new Set(expected.forerunners?.ids),
    deviceSequences: new Map(expected.forerunners?.deviceSequences),
    keys: new Map(expected.keys),
    revoked: new Set(expected.revoked),
    signed: 0,
    count: 0,
  }
  for (const candidate of links) {
    const sequence = walk.head.sequence + 1
    const lastSound = walk.head
    const reason = faultOf(candidate, { walk, expected })
    if (reason !== undefined) return { sound: false, sequence, reason, lastSound }
    if (expected.head?.sequence === sequence && expected.head.hash !== walk.head.hash)
      return { sound: false, sequence, reason: 'the hash differs from the known head', lastSound }
  }
  if (expected.head !== undefined && walk.head.sequence < expected.head.sequence)
    return {
      sound: false,
      sequence: walk.head.sequence + 1,
      reason: `the record ends after ${walk.head.sequence} of ${expected.head.sequence} known entries`,
      lastSound: walk.head,
    }
  if (expected.checkSignature === undefined) return { sound: true, head: walk.head }
  const { head, signed, count } = walk
  return { sound: true, head, signed, unsigned: count - signed }
}

interface Walk {
  head: Head
  received: string
  readonly ids: Set<string>
  readonly deviceSequences: Map<string, number>
  readonly keys: Map<string, DeviceKey>
  readonly revoked: Set<string>
  signed: number
  count: number
}

function faultOf(candidate: unknown, { walk, expected }: { walk: Walk; expected: Expectation }): string | undefined {
  const envelope = parseWith(linkEnvelopeSchema, candidate)
  if (!envelope.ok) return `not a link: ${envelope.issues.map(issueLine).join('; ')}`
  const parsed = parseEntry(envelope.value.entry)
  if (!parsed.ok) return `not an entry: ${parsed.issues.map(issueLine).join('; ')}`
  // hash what was written, not what parsing made of it
  const link = candidate as Link
  return (
    tieFault(link, walk) ??
    contentFault(link, { walk, expected }) ??
    writerFault(link.entry, { walk, checkSignature: expected.checkSignature }) ??
    advance(link, walk)
  )
}

/** Who wrote it, as far as keys say: the entry itself, and a contested one it carries. */
function writerFault(
  entry: Entry,
  { walk, checkSignature }: { walk: Walk; checkSignature: CheckSignature | undefined },
): string | undefined {
  if (checkSignature === undefined) return undefined
  if (walk.revoked.has(entry.device)) return `${entry.device} was revoked before it`
  const signing = (device: string) => ({ checkSignature, joinedKey: walk.keys.get(device) })
  const fault = signatureFault(entry, signing(entry.device))
  if (fault !== undefined || entry.kind !== 'entry.contested') return fault
  const original = entry.body.entry as Entry
  const inner = signatureFault(original, signing(original.device))
  return inner === undefined ? undefined : `the contested entry it carries: ${inner}`
}

function tieFault(link: Link, walk: Walk): string | undefined {
  if (link.sequence !== walk.head.sequence + 1)
    return `number ${link.sequence} stands where ${walk.head.sequence + 1} belongs`
  if (link.previous !== walk.head.hash) return 'it is not tied to the entry before it'
  return hashFault(link)
}

/** Content that has no canonical JSON (a lone surrogate, a number too large) was never hashed, so it can't be what was written. */
function hashFault(link: Link): string | undefined {
  try {
    return link.hash === linkHash(link) ? undefined : 'its content does not match its hash'
  } catch (error) {
    return `it can't be written as canonical JSON: ${error instanceof Error ? error.message : String(error)}`
  }
}

function contentFault(
  { entry, received }: Link,
  { walk, expected }: { walk: Walk; expected: Expectation },
): string | undefined {
  if (entry.investigation !== expected.investigation) return `it belongs to investigation ${entry.investigation}`
  if (walk.ids.has(entry.id)) return `its id ${entry.id} was used before`
  if (received < walk.received) return 'it was received before its forerunner'
  const last = walk.deviceSequences.get(entry.device) ?? 0
  if (entry.deviceSequence <= last) return `device number ${entry.deviceSequence} does not follow ${last}`
  return undefined
}

function advance({ sequence, hash, received, entry }: Link, walk: Walk): undefined {
  walk.head = { sequence, hash }
  walk.received = received
  walk.ids.add(entry.id)
  walk.deviceSequences.set(entry.device, entry.deviceSequence)
  walk.count += 1
  if (entry.signature !== undefined) walk.signed += 1
  if (entry.kind === 'device.joined') walk.keys.set(entry.device, entry.body.key)
  if (entry.kind === 'device.revoked') walk.revoked.add(entry.body.device)
  return undefined
}
