// Committing links durably to SQLite, beside plain inserts of the same text into a table with the same settings and no checks.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { emptyHead, type Head, type Link, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { SqliteLedger } from '@rillmark/server/ledger/sqlite-ledger.ts'
import { longRecord } from './long-record.ts'
import type { Measurement } from './measure.ts'

const LINKS = 10_000
const BATCH = 200

export async function measure(): Promise<Measurement[]> {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-bench-'))
  try {
    const batches = linkedBatches()
    const began = performance.now()
    const ledger = new SqliteLedger(join(folder, 'ledger.sqlite'))
    for (const batch of batches) await ledger.commit(batch)
    await ledger.close()
    const ledgerMs = performance.now() - began
    const plainMs = plainInserts(join(folder, 'plain.sqlite'), batches)
    const what = `commit ${LINKS} links in batches of ${BATCH}`
    return [{ what, value: ledgerMs, unit: 'ms', ratio: { to: 'plain inserts', times: ledgerMs / plainMs } }]
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function linkedBatches(): Link[][] {
  const entries = longRecord(LINKS)
  const batches: Link[][] = []
  let head: Head = emptyHead('marram-house')
  for (let at = 0; at < entries.length; at += BATCH) {
    const batch = linkEntries(head, { entries: entries.slice(at, at + BATCH), received: '2026-03-02T09:00:00.000Z' })
    const last = batch.at(-1)
    if (last !== undefined) head = { sequence: last.sequence, hash: last.hash }
    batches.push(batch)
  }
  return batches
}

function plainInserts(path: string, batches: readonly (readonly Link[])[]): number {
  const began = performance.now()
  const database = new DatabaseSync(path)
  database.exec(
    'PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE lines (number INTEGER PRIMARY KEY, line TEXT)',
  )
  const insert = database.prepare('INSERT INTO lines VALUES (?, ?)')
  for (const batch of batches) {
    database.exec('BEGIN')
    for (const link of batch) insert.run(link.sequence, JSON.stringify(link))
    database.exec('COMMIT')
  }
  database.close()
  return performance.now() - began
}
