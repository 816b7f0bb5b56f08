// Data folders nobody can work with: `rillmark start` and the other commands say why, and change nothing in them.
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { commands } from '@rillmark/cli/commands.ts'
import { dispatch } from '@rillmark/cli/dispatch.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { buildApp } from '@rillmark/server/api/app.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { afterEach, beforeEach, expect, test } from 'vitest'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'rillmark-bad-folder-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const NOTES = 400

async function soundFolder(): Promise<string> {
  const path = join(folder, 'data')
  const data = openData(path)
  const { make } = entryMaker('marram-house')
  const notes = Array.from({ length: NOTES }, (_, n) => make('note.written', { text: `note ${n}`, purpose: 'note' }))
  await data.records.append('marram-house', notes)
  await data.ledger.close()
  return path
}

const database = (path: string): string => join(path, 'records.sqlite')

function altered(path: string, change: (bytes: Buffer) => void): string {
  const bytes = readFileSync(database(path))
  change(bytes)
  writeFileSync(database(path), bytes)
  return path
}

async function run(args: readonly string[]) {
  let [out, err] = ['', '']
  const io = {
    stdin: async () => '',
    out: (text: string) => (out += text),
    err: (text: string) => (err += text),
    cwd: folder,
  }
  return { code: await dispatch({ commands, args: [...args], io }), out, err }
}

const PAGE_BYTES = 4096

const WAYS: readonly (readonly [string, () => Promise<string>, RegExp])[] = [
  ['a file', async () => (writeFileSync(join(folder, 'data'), 'x'), join(folder, 'data')), /a file\n/],
  [
    'a path through a file',
    async () => (writeFileSync(join(folder, 'x'), 'x'), join(folder, 'x', 'data')),
    /through a file/,
  ],
  [
    'a database that is text',
    async () => altered(await soundFolder(), (bytes) => bytes.fill('text ', 0, 200)),
    /no database/,
  ],
  [
    'a database that is nothing but noise',
    async () => altered(await soundFolder(), (bytes) => bytes.fill(0xa7)),
    /no database/,
  ],
  [
    'a database with a page overwritten',
    async () => altered(await soundFolder(), (bytes) => bytes.fill(0xff, 3 * PAGE_BYTES, 5 * PAGE_BYTES)),
    /a damaged file/,
  ],
  [
    'a database cut short',
    async () => {
      const path = await soundFolder()
      writeFileSync(database(path), readFileSync(database(path)).subarray(0, 3 * PAGE_BYTES))
      return path
    },
    /a damaged file/,
  ],
  [
    'a database that is a folder',
    async () => (mkdirSync(join(folder, 'data', 'records.sqlite'), { recursive: true }), join(folder, 'data')),
    /can’t be opened/,
  ],
  [
    'a link that goes round in a circle',
    async () => (symlinkSync(join(folder, 'data'), join(folder, 'data')), join(folder, 'data')),
    /leads nowhere/,
  ],
  [
    'a database of a newer version',
    async () => {
      const path = await soundFolder()
      const newer = new DatabaseSync(database(path))
      newer.exec('PRAGMA user_version = 99; PRAGMA journal_mode = DELETE')
      newer.close()
      return path
    },
    /format 2 or older, received format 99, written by a newer version/,
  ],
]

test.each(WAYS)('[CLI4] [SRV19] start says what is wrong with %s', async (_, make, wanted) => {
  const path = await make()
  const before = filesIn(folder)
  const { code, out, err } = await run(['start', '--data', path, '--port', '0'])
  expect({ code, out }).toEqual({ code: 2, out: '' })
  expect(err).toMatch(/^--data: expected .+, received .+\n$/)
  expect(err).toMatch(wanted)
  expect(filesIn(folder)).toEqual(before)
})

test('[CLI4] [SRV19] a database another program holds locked is told, by start and by the running server, and nothing is lost', async () => {
  const path = await soundFolder()
  const data = openData(path)
  const app = await buildApp({ data, appFolder: path, loopbackOnly: true, log: () => undefined })
  const other = new DatabaseSync(database(path))
  other.exec('BEGIN IMMEDIATE')
  const started = await run(['start', '--data', path, '--port', '0'])
  expect(started).toMatchObject({ code: 2, err: expect.stringContaining('another program holds locked') })
  const { make } = entryMaker('other-house')
  const entries = [make('note.written', { text: 'one', purpose: 'note' })]
  const push = () =>
    app.inject({
      method: 'POST',
      url: '/api/investigations/other-house/entries',
      headers: { host: 'localhost' },
      payload: { entries },
    })
  const refused = await push()
  expect(refused.statusCode).toBe(503)
  expect(refused.json()).toMatchObject({
    issues: [{ path: 'data folder', received: 'a file another program holds locked' }],
  })
  other.exec('ROLLBACK')
  other.close()
  expect((await push()).json()).toMatchObject({ accepted: [{ sequence: 1 }], refused: [] })
  await app.close()
  await data.ledger.close()
})

test('[CLI4] an entry whose text was damaged in the file is named, not shown as a failure of ours', async () => {
  const path = await soundFolder()
  const raw = new DatabaseSync(database(path))
  raw.exec("UPDATE links SET entry = '{' WHERE sequence = 7")
  raw.close()
  const { code, err } = await run(['verify', 'marram-house', '--data', path])
  expect({ code, err }).toEqual({
    code: 2,
    err: '--data: expected entry 7 of marram-house as it was written, received damaged text: restore records.sqlite from a copy\n',
  })
})

/** The log and index of the database come and go with its being opened; everything else must stay as it was. */
function filesIn(path: string): string[] {
  return (readdirSync(path, { recursive: true }) as string[]).filter((name) => !/-(?:shm|wal)$/.test(name)).toSorted()
}
