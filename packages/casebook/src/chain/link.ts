import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import * as z from 'zod'
import type { Entry } from '../entry/entry.ts'
import { instant, sha256Hex } from '../entry/fields.ts'
import { canonicalJson } from './canonical.ts'

/** An entry in its place: numbered, dated by the receiver, tied by hash to the one before it. */
export interface Link {
  readonly sequence: number
  readonly received: string
  readonly previous: string
  readonly hash: string
  readonly entry: Entry
  /** how far the clock of the device was ahead when the entry came; absent where it was right to the minute */
  readonly clockAheadS?: number
}

/** Where a record ends: how many links, and the hash of the last one. */
export interface Head {
  readonly sequence: number
  readonly hash: string
}

/** A hundred years: more is no clock. */
const MOST_AHEAD_S = 3_155_760_000

export const linkEnvelopeSchema = z.strictObject({
  sequence: z.int().min(1),
  received: instant,
  previous: sha256Hex,
  hash: sha256Hex,
  entry: z.unknown(),
  clockAheadS: z.int().min(-MOST_AHEAD_S).max(MOST_AHEAD_S).optional(),
})

/** What the first link is tied to: the hash of the investigation's id, so that links of two files can't be exchanged. */
export function genesisHash(investigation: string): string {
  return sha256Of(canonicalJson({ format: 'rillmark/record@1', investigation }))
}

/** The head of a record that has no entry yet. */
export function emptyHead(investigation: string): Head {
  return { sequence: 0, hash: genesisHash(investigation) }
}

/** Ties entries to a head, in the order given. `ahead` says of each how far its device's clock was ahead, where that is known. */
export function linkEntries(
  head: Head,
  {
    entries,
    received,
    ahead,
  }: { entries: readonly Entry[]; received: string; ahead?: (entry: Entry) => number | undefined },
): Link[] {
  const links: Link[] = []
  let { sequence, hash: previous } = head
  for (const entry of entries) {
    sequence += 1
    const clockAheadS = ahead?.(entry)
    const link = { sequence, received, previous, entry, ...(clockAheadS === undefined ? {} : { clockAheadS }) }
    const hash = linkHash(link)
    links.push({ ...link, hash })
    previous = hash
  }
  return links
}

/** SHA-256 over the canonical JSON of everything in a link but its hash. */
export function linkHash({ sequence, received, previous, entry, clockAheadS }: Omit<Link, 'hash'>): string {
  const clock = clockAheadS === undefined ? {} : { clockAheadS }
  return sha256Of(canonicalJson({ sequence, received, previous, entry, ...clock }))
}

/** SHA-256 of a text's UTF-8 bytes, in lower-case hexadecimal. */
export function sha256Of(text: string): string {
  return sha256OfBytes(utf8ToBytes(text))
}

/** SHA-256 of bytes, in lower-case hexadecimal. */
export function sha256OfBytes(bytes: Uint8Array): string {
  return bytesToHex(sha256(bytes))
}

/** The head after a list of links. */
export function headAfter(head: Head, links: readonly Link[]): Head {
  const last = links.at(-1)
  return last === undefined ? head : { sequence: last.sequence, hash: last.hash }
}
