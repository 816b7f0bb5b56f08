import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { headAfter, emptyHead, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { LABEL, signedRecord } from '@rillmark/casebook/receipt/receipt.fixture.ts'
import { prettyJson } from '@rillmark/exchange/package/derived-files.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { afterAll, expect, test } from 'vitest'
import { runIn } from './command-run.fixture.ts'
import { commands } from './commands.ts'
import type { Command } from './command.ts'
import { dispatch } from './dispatch.ts'
import { importCommand } from './import.ts'
import { verifyCommand } from './verify.ts'

// Data that an earlier or a later version of this program wrote: what is said of it must be true and clear.
const folder = mkdtempSync(join(tmpdir(), 'rillmark-older-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const run = (command: Command, ...args: string[]) => runIn(folder, { command, args })
const dispatched = (...args: string[]) =>
  runIn(folder, {
    command: { name: '', help: '', run: (given, io) => dispatch({ commands, args: given, io }) },
    args,
  })
const links = signedRecord()
const { sequence, hash } = headAfter(emptyHead('marram-house'), links)

type Manifest = { tables?: string; files: object[]; format: string }

/** The package as another version would have written it. */
function madeBy(name: string, change: (files: Record<string, Uint8Array>, manifest: Manifest) => void): void {
  const files = unzipSync(writePackage(links, { attachments: new Map() }))
  const manifest = JSON.parse(strFromU8(files['manifest.json'] ?? new Uint8Array())) as Manifest
  change(files, manifest)
  manifest.files = Object.entries(files)
    .filter(([path]) => path !== 'manifest.json')
    .map(([path, bytes]) => ({ path, bytes: bytes.length, sha256: sha256OfBytes(bytes) }))
  files['manifest.json'] = strToU8(prettyJson(manifest))
  writeFileSync(join(folder, name), zipSync(files, { mtime: new Date(1980, 0, 1) }))
}

function oldest(files: Record<string, Uint8Array>, manifest: Manifest): void {
  delete files['keys.json']
  delete files['tree.json']
  delete manifest.tables
}

test('[PKG10] a package of the oldest kind is verified for what it holds, says what it lacks, and is taken in whole', async () => {
  madeBy('oldest.zip', oldest)
  const { code, out, err } = await run(verifyCommand, 'oldest.zip')
  expect({ code, err }).toEqual({ code: 0, err: '' })
  expect(out).toContain(`Head           ${sequence}:${hash}`)
  expect(out).toMatch(
    /Holds: ZIP archive, list of contents, hashes of files, chain of entries, signatures, devices, pictures, reports\n/,
  )
  expect(out).toContain(
    'Note: An older package: the tables were not made again and compared. The record is what counts.',
  )
  expect(out).toContain('Note: An older package: it holds no list of keys and no root of the tree')
  expect(await run(importCommand, 'oldest.zip', '--data', 'taken-in')).toMatchObject({
    code: 0,
    out: `marram-house: ${sequence} entries added, ${sequence} in all\nHead ${sequence}:${hash}\n`,
  })
  expect(await run(verifyCommand, 'marram-house', '--data', 'taken-in')).toMatchObject({ code: 0 })
})

test('[PKG10] a record altered in a package of the oldest kind is found, and not taken in', async () => {
  madeBy('altered.zip', (files, manifest) => {
    oldest(files, manifest)
    const text = strFromU8(files['entries.jsonl'] ?? new Uint8Array())
    files['entries.jsonl'] = strToU8(text.replace('called the laboratory', 'called nobody'))
  })
  const said = { code: 2, out: '', err: expect.stringMatching(/an unbroken chain.*does not match its hash/) }
  expect(await run(verifyCommand, 'altered.zip')).toMatchObject(said)
  expect(await run(importCommand, 'altered.zip', '--data', 'empty')).toMatchObject(said)
})

test('[PKG10] tables of another version are not judged, and that is said; keys and root are', async () => {
  madeBy('newer-tables.zip', (files, manifest) => {
    manifest.tables = 'rillmark/tables@9'
    files['tables/samples.csv'] = strToU8('something,else\r\n')
  })
  const { code, out } = await run(verifyCommand, 'newer-tables.zip')
  expect(code).toBe(0)
  expect(out).toMatch(
    /Note: Its tables are rillmark\/tables@9, this verifier knows rillmark\/tables@\d+: the tables were not made again/,
  )
  expect(out).toMatch(/Holds: .*list of keys, root of the tree/)
  expect(out).not.toMatch(/Holds: .*tables/)
})

test('[PKG10] a package of a newer format is refused by its name', async () => {
  madeBy('newer.zip', (_, manifest) => {
    manifest.format = 'rillmark/package@2'
  })
  for (const command of [verifyCommand, importCommand])
    expect(await run(command, 'newer.zip')).toMatchObject({
      code: 2,
      err: expect.stringMatching(
        /manifest\.json format: expected .*rillmark\/package@1.*, received "rillmark\/package@2"/,
      ),
    })
})

/** A data folder whose records are kept in the format before clocks were kept. */
function folderOfFormat1(name: string): void {
  openAt(name, (database) => {
    database.exec('ALTER TABLE links DROP COLUMN clock_ahead_s; PRAGMA user_version = 1')
  })
}

function openAt(name: string, work: (database: DatabaseSync) => void): number {
  const database = new DatabaseSync(join(folder, name, 'records.sqlite'))
  work(database)
  const version = Number(database.prepare('PRAGMA user_version').get()?.['user_version'])
  database.close()
  return version
}

test('[CLI4] a data folder of an earlier version is opened and brought up, its record as it was; one of a newer version is refused', async () => {
  await run(importCommand, 'oldest.zip', '--data', 'data')
  folderOfFormat1('data')
  expect(await run(verifyCommand, 'marram-house', '--data', 'data', '--head', `${sequence}:${hash}`)).toMatchObject({
    code: 0,
  })
  expect(openAt('data', () => undefined)).toBe(2)
  openAt('data', (database) => database.exec('PRAGMA user_version = 3'))
  for (const args of [
    ['verify', 'marram-house'],
    ['receipt', 'marram-house', '--sample', LABEL, '-o', 'r.json'],
    ['import', 'oldest.zip'],
  ])
    expect(await dispatched(...args, '--data', 'data')).toEqual({
      code: 2,
      out: '',
      err: '--data: expected records.sqlite in format 2 or older, received format 3, written by a newer version of this program\n',
    })
  expect(openAt('data', () => undefined)).toBe(3)
})
