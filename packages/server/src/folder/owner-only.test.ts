import { chmodSync, existsSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { linkEntries } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openData } from '../data/open-data.ts'

let parent: string
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'rillmark-owner-'))
})
afterEach(() => rmSync(parent, { recursive: true, force: true }))

const modeOf = (...path: readonly string[]): string => (statSync(join(parent, ...path)).mode & 0o777).toString(8)
const note = entryMaker('marram-house').make('note.written', { text: 'x', purpose: 'note' })

test('[ACC21] the record and the pictures are for the owner of the data folder only, its working files too', async () => {
  const data = openData(join(parent, 'data'))
  await data.ledger.commit(
    linkEntries(await data.ledger.head('marram-house'), { entries: [note], received: '2026-03-02T12:00:00.000Z' }),
  )
  for (const file of ['records.sqlite', 'records.sqlite-wal', 'records.sqlite-shm'])
    expect(modeOf('data', file), file).toBe('600')
  expect(modeOf('data')).toBe('700')
  await data.ledger.close()
})

test('[ACC21] a folder of an older version is closed to others when it is opened; where it lies stays as it is', async () => {
  mkdirSync(join(parent, 'attachments'))
  writeFileSync(join(parent, 'records.sqlite'), '')
  for (const [path, mode] of [
    ['attachments', 0o755],
    ['records.sqlite', 0o644],
    ['', 0o755],
  ] as const)
    chmodSync(join(parent, path), mode)
  const data = openData(parent)
  expect([modeOf('records.sqlite'), modeOf('attachments'), modeOf()]).toEqual(['600', '700', '755'])
  expect(existsSync(join(parent, 'attachments'))).toBe(true)
  await data.ledger.close()
})
