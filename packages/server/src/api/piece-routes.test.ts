import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { FastifyInstance } from 'fastify'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type Data, openData } from '../data/open-data.ts'
import { buildApp } from './app.ts'

let folder: string
let data: Data
let app: FastifyInstance
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'rillmark-piece-routes-'))
  data = openData(folder)
  app = await buildApp({ data, appFolder: join(folder, 'no-app'), loopbackOnly: true, log: () => undefined })
})
afterEach(async () => {
  await app.close()
  await data.ledger.close()
  rmSync(folder, { recursive: true, force: true })
})

const photo = Buffer.alloc(5000, 7)
photo.set([0xff, 0xd8, 0xff])
const sha256 = createHash('sha256').update(photo).digest('hex')
const url = `/api/attachments/${sha256}/pieces`
const headers = { host: 'localhost:8710' }
const asked = async () => (await app.inject({ url, headers })).json()
async function sent(query: string, payload: Buffer, type = 'application/octet-stream') {
  const response = await app.inject({
    method: 'PUT',
    url: `${url}?${query}`,
    headers: { ...headers, 'content-type': type },
    payload,
  })
  return { status: response.statusCode, ...response.json() }
}

test('[PIC1] a picture goes in by pieces over the API, and out whole', async () => {
  expect(await asked()).toEqual({ received: 0, whole: false })
  expect(await sent('from=0&of=5000', photo.subarray(0, 3000))).toEqual({ status: 200, received: 3000, whole: false })
  expect(await sent('from=0&of=5000', photo.subarray(0, 3000))).toEqual({
    status: 409,
    received: 3000,
    whole: false,
    issues: [{ path: 'from', expected: '3000', received: '0' }],
  })
  expect(await asked()).toEqual({ received: 3000, whole: false })
  expect(await sent('from=3000&of=5000', photo.subarray(3000))).toEqual({ status: 200, received: 5000, whole: true })
  expect(await asked()).toEqual({ received: 5000, whole: true })
  const out = await app.inject({ url: `/api/attachments/${sha256}`, headers })
  expect(out.rawPayload).toEqual(photo)
})

test.each([
  ['no bytes', 'from=0&of=5000', Buffer.alloc(0), 400, 'body'],
  ['more than it says', 'from=0&of=10', photo, 400, 'of'],
  ['a whole larger than any picture', 'from=0&of=99999999', photo, 400, 'of'],
  ['no place', 'of=5000', photo, 400, 'from'],
  ['a piece larger than pieces are', 'from=0&of=5000000', Buffer.alloc(300_000), 413, 'body'],
  ['what is no picture', 'from=0&of=9', Buffer.from('some text'), 415, 'body'],
  ['other bytes than the name says', 'from=0&of=4000', photo.subarray(0, 4000), 422, 'sha256'],
])('[PIC4] %s is refused with the reason and leaves nothing', async (_, query, bytes, status, path) => {
  expect(await sent(query, bytes)).toMatchObject({ status, issues: [{ path }] })
  expect(await asked()).toEqual({ received: 0, whole: false })
})

test('[PIC4] pieces of another type are refused', async () => {
  expect(await sent('from=0&of=5000', photo, 'image/jpeg')).toMatchObject({ status: 415 })
})
