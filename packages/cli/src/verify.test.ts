import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Command } from './command.ts'
import { runIn } from './command-run.fixture.ts'
import { exportCommand } from './export.ts'
import { importCommand } from './import.ts'
import { verifyCommand } from './verify.ts'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-cli-'))
let head = ''
beforeAll(async () => {
  const data = openData(join(folder, 'data'))
  const { make } = entryMaker('marram-house')
  const note = (text: string) => make('note.written', { text, purpose: 'note' })
  const appended = await data.records.append('marram-house', [note('one'), note('two'), note('three')])
  head = `${appended.head.sequence}:${appended.head.hash}`
  await data.ledger.close()
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const run = (command: Command, args: string[]) => runIn(folder, { command, args })

test('a record goes out, verifies, and comes into another folder with the same head', async () => {
  expect(await run(exportCommand, ['marram-house', '-o', 'x.zip', '--data', 'data'])).toMatchObject({
    code: 0,
  })
  expect(await run(verifyCommand, ['x.zip', '--head', head])).toMatchObject({
    code: 0,
    out: expect.stringMatching(new RegExp(`^Sound package\\n(.*\\n)*.*Head +${head}\\n`)),
  })
  expect(await run(importCommand, ['x.zip', '--data', 'other'])).toMatchObject({
    code: 0,
    out: expect.stringContaining(head),
  })
  expect(await run(verifyCommand, ['marram-house', '--data', 'other', '--head', head])).toMatchObject({ code: 0 })
  expect(await run(importCommand, ['x.zip', '--data', 'other'])).toMatchObject({
    code: 0,
    out: expect.stringContaining('0 entries added'),
  })
})

test('verify names the first broken link of a folder someone altered', async () => {
  const altered = join(folder, 'altered')
  await run(exportCommand, ['marram-house', '-o', 'y.zip', '--data', 'data'])
  await run(importCommand, ['y.zip', '--data', 'altered'])
  const database = new DatabaseSync(join(altered, 'records.sqlite'))
  database.exec("UPDATE links SET entry = replace(entry, 'two', 'too') WHERE sequence = 2")
  database.close()
  const { code, err } = await run(verifyCommand, ['marram-house', '--data', 'altered'])
  expect({ code, err }).toEqual({
    code: 2,
    err: 'entry 2: expected an unbroken chain, received a broken link: its content does not match its hash\n',
  })
  const told = await run(verifyCommand, ['marram-house', '--data', 'altered', '--json'])
  expect(JSON.parse(told.out)).toMatchObject({ sound: false, sequence: 2, lastSound: { sequence: 1 } })
})

test('a package altered by one byte is not verified and nothing of it is imported', async () => {
  await run(exportCommand, ['marram-house', '-o', 'z.zip', '--data', 'data'])
  const bytes = readFileSync(join(folder, 'z.zip'))
  bytes[Math.floor(bytes.length / 3)] = (bytes[Math.floor(bytes.length / 3)] ?? 0) ^ 1
  writeFileSync(join(folder, 'bad.zip'), bytes)
  expect(await run(verifyCommand, ['bad.zip'])).toMatchObject({ code: 2, out: '' })
  expect(await run(importCommand, ['bad.zip', '--data', 'empty'])).toMatchObject({ code: 2, out: '' })
  expect(await run(verifyCommand, ['marram-house', '--data', 'empty'])).toMatchObject({
    code: 2,
    err: expect.stringContaining('--data'),
  })
})

test.each([
  [verifyCommand, []],
  [verifyCommand, ['x.zip', '--head', '3:abc']],
  [verifyCommand, ['x.zip', 'nothing.zip']],
  [verifyCommand, ['nobody', '--data', 'data']],
  [exportCommand, ['marram-house']],
  [exportCommand, ['nobody', '-o', 'n.zip', '--data', 'data']],
  [exportCommand, ['marram-house', '-o', 'n.zip', '--data', 'nowhere']],
  [importCommand, ['nothing.zip']],
  [importCommand, ['--frobnicate']],
])('%o %j can’t be used and says why', async (command, args) => {
  const { code, out, err } = await run(command, args)
  expect({ code, out }).toEqual({ code: 2, out: '' })
  expect(err).toMatch(/^.+: expected .+, received .+\n$/)
})
