import { createHash } from 'node:crypto'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import type { Acknowledged } from './ingest-device.ts'
import type { Requests } from './requests.ts'

/** What was acknowledged by several devices together. */
export function together(all: readonly Acknowledged[]): Acknowledged {
  return { entries: all.flatMap(({ entries }) => entries), photos: all.flatMap(({ photos }) => photos) }
}

/** What of the acknowledged a server has not, or has elsewhere, in words. Reads only as far back as it must. */
export async function broken(acknowledged: Acknowledged, requests: Requests): Promise<string[]> {
  const faults: string[] = []
  for (const [investigation, entries] of Map.groupBy(acknowledged.entries, (each) => each.investigation)) {
    const first = Math.min(...entries.map(({ sequence }) => sequence))
    const links = await linksAfter(first - 1, { investigation, requests })
    const at = new Map(links.map(({ sequence, entry }) => [sequence, entry.id]))
    for (const { id, sequence } of entries)
      if (at.get(sequence) !== id)
        faults.push(`${investigation} ${sequence}: ${id} was acknowledged, ${at.get(sequence)} is there`)
  }
  for (const sha256 of new Set(acknowledged.photos)) {
    const content = await requests.attachment(sha256).catch((error: unknown) => String(error))
    if (typeof content === 'string') faults.push(`photo ${sha256}: ${content}`)
    else if (createHash('sha256').update(content).digest('hex') !== sha256) faults.push(`photo ${sha256} is damaged`)
  }
  return faults
}

/** What is wrong with one whole record: its chain, an entry doubled, or one that was acknowledged and is not there. */
export async function brokenRecord(
  investigation: string,
  { acknowledged, requests }: { acknowledged: Acknowledged; requests: Requests },
): Promise<string[]> {
  const links = await linksAfter(0, { investigation, requests })
  const verdict = verifyChain(links, { investigation })
  const faults = verdict.sound ? [] : [`${investigation} ${verdict.sequence}: ${verdict.reason}`]
  if (new Set(links.map(({ entry }) => entry.id)).size !== links.length)
    faults.push(`${investigation}: an entry is there twice`)
  const ids = new Set(links.map(({ entry }) => entry.id))
  for (const { id, ...at } of acknowledged.entries)
    if (at.investigation === investigation && !ids.has(id)) faults.push(`${investigation}: ${id} is lost`)
  return faults
}

async function linksAfter(
  after: number,
  { investigation, requests }: { investigation: string; requests: Requests },
): Promise<Link[]> {
  const links: Link[] = []
  for (;;) {
    const page = await requests.pull(investigation, after + links.length)
    links.push(...page.links)
    if (after + links.length >= page.head.sequence) return links
    if (page.links.length === 0) throw new Error(`${investigation} ends before its head`)
  }
}
