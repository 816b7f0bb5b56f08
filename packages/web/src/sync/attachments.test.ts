import 'fake-indexeddb/auto'
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { afterEach, expect, test, vi } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { keepAttachment, sendAttachments } from './attachments.ts'
import { Unreachable } from './server-port.ts'

const picture = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 5)
const sha256 = sha256OfBytes(picture)
afterEach(() => vi.unstubAllGlobals())

test('[SYN11] a picture is kept here first, sent once a server answers, and not sent again', async () => {
  const database = await openDatabase('attachments-1')
  expect(await keepAttachment(database, new Blob([picture]))).toEqual({ sha256, mediaType: 'image/png', bytes: 9 })
  const sent: string[] = []
  vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no network')))
  await expect(sendAttachments(database)).rejects.toBeInstanceOf(Unreachable)
  vi.stubGlobal('fetch', async (path: string, { body }: { body: Uint8Array }) => {
    sent.push(`${path} ${sha256OfBytes(body)}`)
    return Response.json({ sha256 })
  })
  await sendAttachments(database)
  await sendAttachments(database)
  await keepAttachment(database, new Blob([picture]))
  await sendAttachments(database)
  expect(sent).toEqual([`/api/attachments/${sha256} ${sha256}`])
})

test.each([
  ['text', new Blob(['hello'])],
  ['nothing', new Blob([])],
  ['a drawing that could run script', new Blob(['<svg onload="x()"/>'])],
  ['more than the limit', new Blob([new Uint8Array(21 * 1024 * 1024)])],
])('[SYN11] %s is no picture to keep', async (_, blob) => {
  await expect(keepAttachment(await openDatabase('attachments-2'), blob)).rejects.toBeInstanceOf(RangeError)
})
