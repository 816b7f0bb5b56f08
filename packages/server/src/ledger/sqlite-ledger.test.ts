import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { DatabaseSync } from 'node:sqlite'
import { fileURLToPath } from 'node:url'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { ledgerContract } from '@rillmark/casebook/ledger/ledger-contract.ts'
import { LedgerConflict } from '@rillmark/casebook/ledger/ledger.ts'
import { afterAll, expect, test } from 'vitest'
import { SqliteLedger } from './sqlite-ledger.ts'
import { linkAfter } from './endless-writer.fixture.ts'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-ledger-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
let files = 0
const freshFile = () => join(folder, `${(files += 1)}.sqlite`)

ledgerContract('SQLite', async () => new SqliteLedger(freshFile()))

test('[SRV1] every commit that was acknowledged survives kill -9 in the middle of writing', async () => {
  for (let trial = 0; trial < 4; trial += 1) {
    const file = freshFile()
    const acknowledged = await writeUntilKilled(file, 20 + trial * 35)
    const ledger = new SqliteLedger(file)
    const links = await ledger.read('marram-house', { after: 0, limit: 100_000 })
    await ledger.close()
    expect(links.length).toBeGreaterThanOrEqual(acknowledged)
    expect(verifyChain(links, { investigation: 'marram-house' })).toMatchObject({ sound: true })
  }
})

test('[SRV1] a commit is on disk before it is acknowledged: write-ahead log, synchronous FULL', async () => {
  const file = freshFile()
  const ledger = new SqliteLedger(file)
  await ledger.commit([linkAfter(await ledger.head('marram-house'))])
  const beside = new DatabaseSync(file)
  expect(beside.prepare('PRAGMA journal_mode').get()).toEqual({ journal_mode: 'wal' })
  expect(beside.prepare('SELECT count(*) AS n FROM links').get()).toEqual({ n: 1 })
  beside.close()
  await ledger.close()
})

test('[LED5] two processes on one file: each sees the other’s links, none overwrites', async () => {
  const file = freshFile()
  const [ours, theirs] = [new SqliteLedger(file), new SqliteLedger(file)]
  const first = linkAfter(await ours.head('marram-house'))
  await ours.commit([first])
  expect(await theirs.head('marram-house')).toEqual({ sequence: 1, hash: first.hash })
  const second = linkAfter(await theirs.head('marram-house'))
  await theirs.commit([second])
  await expect(ours.commit([linkAfter({ sequence: 1, hash: first.hash })])).rejects.toBeInstanceOf(LedgerConflict)
  expect(await ours.read('marram-house', { after: 0, limit: 9 })).toEqual([first, second])
  await ours.close()
  await theirs.close()
})

test('a file written by a newer program is refused, not guessed at', () => {
  const file = freshFile()
  const newer = new DatabaseSync(file)
  newer.exec('PRAGMA user_version = 99')
  newer.close()
  expect(() => new SqliteLedger(file)).toThrow('newer version')
})

test('[LED9] a file of the format before clocks were kept is read as it was and taken on, by two processes at once too', async () => {
  const file = freshFile()
  const older = new DatabaseSync(file)
  older.exec(`
    CREATE TABLE links (investigation TEXT NOT NULL, sequence INTEGER NOT NULL, id TEXT NOT NULL, received TEXT NOT NULL,
      previous TEXT NOT NULL, hash TEXT NOT NULL, entry TEXT NOT NULL, PRIMARY KEY (investigation, sequence)) STRICT, WITHOUT ROWID;
    CREATE UNIQUE INDEX links_id ON links (investigation, id);
    PRAGMA user_version = 1`)
  const first = linkAfter(emptyHead('marram-house'))
  older
    .prepare('INSERT INTO links VALUES (?, ?, ?, ?, ?, ?, ?)')
    .run('marram-house', 1, first.entry.id, first.received, first.previous, first.hash, JSON.stringify(first.entry))
  older.close()
  const [ours, theirs] = [new SqliteLedger(file), new SqliteLedger(file)]
  expect(await ours.read('marram-house', { after: 0, limit: 9 })).toEqual([first])
  const [second] = linkEntries(await theirs.head('marram-house'), {
    entries: [linkAfter(emptyHead('marram-house')).entry],
    received: first.received,
    ahead: () => 86_400,
  })
  await theirs.commit(second === undefined ? [] : [second])
  expect(await ours.read('marram-house', { after: 1, limit: 9 })).toEqual([second])
  await ours.close()
  await theirs.close()
})

test('[SRV2] links go out as text with the very entries that were stored, whatever they hold', async () => {
  const ledger = new SqliteLedger(freshFile())
  const entries = ['é 水 \u2028 "\\', 'plain'].map((author) => ({
    ...linkAfter(emptyHead('marram-house')).entry,
    author,
  }))
  const links = linkEntries(emptyHead('marram-house'), {
    entries,
    received: '2026-03-02T09:00:00.000Z',
    ahead: (entry) => (entry.author === 'plain' ? 90 : undefined),
  })
  await ledger.commit(links)
  expect(JSON.parse(ledger.readJson('marram-house', { after: 0, limit: 9 }))).toEqual(links)
  expect(JSON.parse(ledger.readJson('marram-house', { after: 1, limit: 9 }))).toEqual(links.slice(1))
  expect(ledger.readJson('nobody', { after: 0, limit: 9 })).toBe('[]')
  await ledger.close()
})

test('[SRV19] an entry whose text is damaged is named, also where it would go out as text', async () => {
  const file = freshFile()
  const ledger = new SqliteLedger(file)
  await ledger.commit([linkAfter(await ledger.head('marram-house'))])
  const beside = new DatabaseSync(file)
  beside.exec(`UPDATE links SET entry = '{"id":'`)
  beside.close()
  expect(() => ledger.readJson('marram-house', { after: 0, limit: 9 })).toThrow(
    'entry 1 of marram-house as it was written',
  )
  await expect(ledger.read('marram-house', { after: 0, limit: 9 })).rejects.toThrow('entry 1 of marram-house')
  await ledger.close()
})

test('[SRV7] the investigations are found without going through their entries', async () => {
  const file = freshFile()
  const ledger = new SqliteLedger(file)
  const database = new DatabaseSync(file)
  database.exec(`
    WITH RECURSIVE n (n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM n WHERE n < 99999)
    INSERT INTO links (investigation, sequence, id, received, previous, hash, entry)
    SELECT 'case-' || (n % 4), n / 4 + 1, n, '', '', '', '{}' FROM n`)
  const all = 'SELECT DISTINCT investigation FROM links ORDER BY investigation'
  const bySight = database.prepare(all)
  const timed = async (work: () => unknown) => {
    const from = performance.now()
    for (let n = 0; n < 20; n += 1) await work()
    return performance.now() - from
  }
  const slow = await timed(() => bySight.all())
  expect(await timed(() => ledger.investigations())).toBeLessThan(slow / 5)
  expect(await ledger.investigations()).toEqual(['case-0', 'case-1', 'case-2', 'case-3'])
  await ledger.forget('case-2')
  expect(await ledger.investigations()).toEqual(bySight.all().map((row) => row['investigation']))
  database.close()
  await ledger.close()
})

/** Lets another process commit one link after the other and kills it after it acknowledged so many. */
function writeUntilKilled(file: string, wanted: number): Promise<number> {
  const child = spawn(process.execPath, [fileURLToPath(new URL('endless-writer.fixture.ts', import.meta.url)), file], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  let acknowledged = 0
  return new Promise((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      acknowledged = Number(line)
      if (acknowledged === wanted) child.kill('SIGKILL')
    })
    child.once('error', reject)
    child.once('close', (code) =>
      code === null ? resolve(acknowledged) : reject(new Error(`the writer ended with ${code}`)),
    )
  })
}
