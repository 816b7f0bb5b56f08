import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { expect, test } from 'vitest'
import { openData } from '../data/open-data.ts'
import { RESERVED_BYTES, Room } from '../folder/room.ts'
import { buildApp } from './app.ts'

const INVESTIGATION = 'marram-house'
const PICTURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 9])

test('[PIC5] on a disk that is nearly full neither a whole picture nor a package is taken, and an entry is', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-full-'))
  const room = new Room({ freeBytes: async () => RESERVED_BYTES + 1, now: () => 0 })
  const data = { ...openData(folder), room }
  const app = await buildApp({ data, appFolder: folder, loopbackOnly: true, log: () => undefined })
  const sent = async (url: string, { type, payload }: { type: string; payload: Buffer | string }) => {
    const method = url.includes('attachments') ? 'PUT' : 'POST'
    const headers = { host: 'localhost', 'content-type': type }
    const answer = await app.inject({ method, url: `/api/${url}`, headers, payload })
    return [answer.statusCode, answer.json<{ issues?: { path: string }[] }>().issues?.[0]?.path]
  }
  const { make } = entryMaker(INVESTIGATION)
  const opened = { title: 'Marram House', setting: 'hotel', openedOn: '2026-03-02', reason: 'two cases' } as const
  const entries = [make('investigation.opened', opened)]
  const links = linkEntries(emptyHead(INVESTIGATION), { entries, received: '2026-03-02T12:00:00.000Z' })
  const zip = Buffer.from(writePackage(links, { attachments: new Map() }))
  const sha256 = createHash('sha256').update(PICTURE).digest('hex')
  const nearlyFull = [507, 'data folder']
  expect(await sent(`attachments/${sha256}`, { type: 'image/png', payload: PICTURE })).toEqual(nearlyFull)
  expect(await sent('investigations/import', { type: 'application/zip', payload: zip })).toEqual(nearlyFull)
  expect((await data.ledger.head(INVESTIGATION)).sequence).toBe(0)
  const pushed = { type: 'application/json', payload: JSON.stringify({ entries }) }
  expect(await sent(`investigations/${INVESTIGATION}/entries`, pushed)).toEqual([200, undefined])
  await app.close()
  await data.ledger.close()
  rmSync(folder, { recursive: true, force: true })
})
