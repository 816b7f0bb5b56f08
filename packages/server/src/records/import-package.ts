import type { Head } from '@rillmark/casebook/chain/link.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { Package } from '@rillmark/exchange/package/read-package.ts'
import type { Attachments } from '../attachments/attachments.ts'
import type { Room } from '../folder/room.ts'
import type { Records } from './records.ts'

export type Imported =
  | { readonly ok: true; readonly added: number; readonly head: Head }
  | { readonly ok: false; readonly why: 'another story' | 'disk nearly full'; readonly issues: readonly Issue[] }

/** Stores a verified package: attachments first, named by their own hash, then all links in one commit. */
export async function importPackage(
  { manifest, links, attachments }: Package,
  into: { records: Records; attachments: Attachments; room: Room },
): Promise<Imported> {
  const { investigation } = manifest
  const fork = await forkWith({ investigation, links }, into.records)
  if (fork !== undefined) return anotherStory(investigation, fork)
  if (!(await into.room.takes(manifest.files.reduce((sum, { bytes }) => sum + bytes, 0)))) {
    const told = { expected: 'room on the disk', received: 'a disk that is nearly full' }
    return { ok: false, why: 'disk nearly full', issues: [statedIssue('data folder', told)] }
  }
  for (const [sha256, bytes] of attachments) await into.attachments.put(sha256, bytes)
  const imported = await into.records.importRecord(investigation, links)
  return imported.ok ? imported : anotherStory(investigation, imported.at)
}

/** The first link the two records disagree about. */
async function forkWith(
  { investigation, links }: { investigation: string; links: Package['links'] },
  records: Records,
): Promise<number | undefined> {
  const held = await records.links(investigation)
  const index = held.findIndex((link, at) => links[at] !== undefined && links[at].hash !== link.hash)
  return index < 0 ? undefined : index + 1
}

function anotherStory(investigation: string, at: number): Imported {
  const expected = `the same entries as ${investigation} has here`
  const told = { expected, received: 'another entry: the two records part there' }
  return { ok: false, why: 'another story', issues: [statedIssue(`entries.jsonl line ${at}`, told)] }
}
