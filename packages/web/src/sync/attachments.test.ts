import 'fake-indexeddb/auto'
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { dropUnnamed, keepAttachment } from './attachments.ts'

const picture = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 5)
const sha256 = sha256OfBytes(picture)

test('[SYN11] a picture is kept on this device under its hash, once', async () => {
  const database = await openDatabase('attachments-1')
  for (let n = 0; n < 2; n += 1)
    expect(await keepAttachment(database, new Blob([picture]))).toEqual({ sha256, mediaType: 'image/png', bytes: 9 })
  expect(await database.getAll('attachments')).toMatchObject([{ sha256 }])
  expect(await database.get('unsent', sha256)).toEqual({ bytes: 9, named: false })
})

test('[SYN22] a picture taken again before an entry named it leaves the device; from the entry on it stays, and is to be sent', async () => {
  const database = await openDatabase('attachments-3')
  await keepAttachment(database, new Blob([picture]))
  expect(await dropUnnamed(database, sha256)).toBe(true)
  expect([await database.count('attachments'), await database.count('unsent')]).toEqual([0, 0])
  expect(await dropUnnamed(database, sha256)).toBe(false)
  await keepAttachment(database, new Blob([picture]))
  const { make } = entryMaker('marram-house')
  const body = { sha256, mediaType: 'image/png' as const, bytes: 9, shows: 'the tap', round: 'R1', stop: 'S1' }
  await new IdbOutbox(database, 'desk-1').hold(make('photo.taken', body))
  expect(await database.get('unsent', sha256)).toEqual({ bytes: 9, named: true })
  expect(await dropUnnamed(database, sha256)).toBe(false)
  expect(await database.count('attachments')).toBe(1)
})

test.each([
  ['text', new Blob(['hello'])],
  ['nothing', new Blob([])],
  ['a drawing that could run script', new Blob(['<svg onload="x()"/>'])],
  ['more than the limit', new Blob([new Uint8Array(21 * 1024 * 1024)])],
])('[SYN11] %s is no picture to keep', async (_, blob) => {
  await expect(keepAttachment(await openDatabase('attachments-2'), blob)).rejects.toBeInstanceOf(RangeError)
})
