import 'fake-indexeddb/auto'
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { keepAttachment } from './attachments.ts'

const picture = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 5)
const sha256 = sha256OfBytes(picture)

test('[SYN11] a picture is kept on this device under its hash, once', async () => {
  const database = await openDatabase('attachments-1')
  for (let n = 0; n < 2; n += 1)
    expect(await keepAttachment(database, new Blob([picture]))).toEqual({ sha256, mediaType: 'image/png', bytes: 9 })
  expect(await database.getAll('attachments')).toMatchObject([{ sha256, waiting: 1 }])
})

test.each([
  ['text', new Blob(['hello'])],
  ['nothing', new Blob([])],
  ['a drawing that could run script', new Blob(['<svg onload="x()"/>'])],
  ['more than the limit', new Blob([new Uint8Array(21 * 1024 * 1024)])],
])('[SYN11] %s is no picture to keep', async (_, blob) => {
  await expect(keepAttachment(await openDatabase('attachments-2'), blob)).rejects.toBeInstanceOf(RangeError)
})
