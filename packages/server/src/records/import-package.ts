import type { Head } from '@rillmark/casebook/chain/link.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { Package } from '@rillmark/exchange/package/read-package.ts'
import type { Attachments } from '../attachments/attachments.ts'
import type { Records } from './records.ts'

/** Stores a verified package: attachments first, named by their own hash, then all links in one commit. */
export async function importPackage(
  { manifest, links, attachments }: Package,
  into: { records: Records; attachments: Attachments },
): Promise<{ ok: true; added: number; head: Head } | { ok: false; issues: readonly Issue[] }> {
  const { investigation } = manifest
  const fork = await forkWith({ investigation, links }, into.records)
  if (fork !== undefined) return { ok: false, issues: [forkIssue(investigation, fork)] }
  for (const [sha256, bytes] of attachments) await into.attachments.put(sha256, bytes)
  const imported = await into.records.importRecord(investigation, links)
  return imported.ok ? imported : { ok: false, issues: [forkIssue(investigation, imported.at)] }
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

function forkIssue(investigation: string, at: number): Issue {
  const expected = `the same entries as ${investigation} has here`
  return statedIssue(`entries.jsonl line ${at}`, { expected, received: 'another entry: the two records part there' })
}
