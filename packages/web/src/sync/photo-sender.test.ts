import 'fake-indexeddb/auto'
import { afterEach, expect, test, vi } from 'vitest'
import { type DeviceDatabase, openDatabase } from '../ledger/database.ts'
import { keepAttachment } from './attachments.ts'
import { PhotoSender } from './photo-sender.ts'
import { PieceServer } from './piece-server.fixture.ts'
import { PIECE_BYTES } from './send-picture.ts'

afterEach(() => vi.unstubAllGlobals())
let databases = 0

async function device(server: PieceServer) {
  vi.stubGlobal('fetch', server.fetch)
  const database = await openDatabase(`photo-sender-${(databases += 1)}`)
  return { database, sender: senderOf(database) }
}

/** Nothing runs by itself: what the test nudges is what happens. */
function senderOf(database: DeviceDatabase): PhotoSender {
  return new PhotoSender({ database, alone: (_name, work) => work(), timers: { later: () => () => undefined } })
}

/** Kept, and named by an entry: what is sent. */
async function namedPhoto(database: DeviceDatabase, file: Blob) {
  const kept = await keepAttachment(database, file)
  const waits = await database.get('unsent', kept.sha256)
  if (waits !== undefined) await database.put('unsent', { ...waits, named: true }, kept.sha256)
  return kept
}

/** JPEG by its first bytes (ITU-T T.81). */
function photo(bytes: number, fill = 7): Blob {
  const content = new Uint8Array(bytes).fill(fill)
  content.set([0xff, 0xd8, 0xff])
  return new Blob([content])
}

test('[SYN11] photos go to the server in pieces, once', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  const kept = await namedPhoto(database, photo(2 * PIECE_BYTES + 5))
  await namedPhoto(database, photo(9, 1))
  await sender.nudge()
  expect(server.asked.toSorted()).toEqual(
    ['GET', 'GET', 'PUT 0', 'PUT 0', `PUT ${PIECE_BYTES}`, `PUT ${2 * PIECE_BYTES}`].toSorted(),
  )
  expect(server.whole.get(kept.sha256)?.length).toBe(2 * PIECE_BYTES + 5)
  const { length } = server.asked
  await namedPhoto(database, photo(9, 1))
  await sender.nudge()
  expect(server.asked).toHaveLength(length)
  expect(sender.standing).toEqual({ count: 0, bytes: 0 })
})

test('[SYN12] a photo goes on where it stopped: after a cut before or after the server acted, and after the page was killed', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  await namedPhoto(database, photo(3 * PIECE_BYTES))
  let puts = 0
  const cut = (when: number) => (method: string) => {
    if (method === 'PUT' && (puts += 1) === when) throw new TypeError('cut')
    return undefined
  }
  server.before = cut(2)
  await sender.nudge()
  expect(sender.standing).toEqual({ count: 1, bytes: 2 * PIECE_BYTES })
  server.before = () => undefined
  puts = 0
  server.after = cut(1)
  await sender.nudge()
  server.after = () => undefined
  server.asked.length = 0
  const restarted = senderOf(database)
  await restarted.nudge()
  expect(server.asked).toEqual(['GET', `PUT ${2 * PIECE_BYTES}`])
  expect([...server.whole.values()].map(({ length }) => length)).toEqual([3 * PIECE_BYTES])
  expect(restarted.standing.count).toBe(0)
})

test('[SYN12] a photo that another device sends at the same time is sent together', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  const { sha256 } = await namedPhoto(database, photo(4 * PIECE_BYTES))
  const content = (await database.get('attachments', sha256))?.content ?? new Uint8Array()
  let puts = 0
  server.before = (method) => {
    // the other device was a piece quicker
    if (method === 'PUT' && (puts += 1) === 2) server.part.set(sha256, content.subarray(0, 3 * PIECE_BYTES))
    return undefined
  }
  await sender.nudge()
  expect(server.asked).toEqual(['GET', 'PUT 0', `PUT ${PIECE_BYTES}`, 'GET', `PUT ${3 * PIECE_BYTES}`])
  expect(server.whole.has(sha256)).toBe(true)
})

test('[SYN12] a server that was stopped before it looked at the whole is made to look', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  const { sha256 } = await namedPhoto(database, photo(PIECE_BYTES + 9))
  const content = (await database.get('attachments', sha256))?.content ?? new Uint8Array()
  server.part.set(sha256, content)
  server.before = (method) => {
    if (method === 'PUT') server.part.set(sha256, content.subarray(0, 9))
    return undefined
  }
  await sender.nudge()
  expect(server.asked.slice(0, 2)).toEqual(['GET', 'PUT 9'])
  expect(server.whole.get(sha256)).toEqual(content)
})

test('[SYN13] no piece is begun while entries are exchanged, and an exchange never waits for a photo', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  await namedPhoto(database, photo(2 * PIECE_BYTES))
  let finish = (): void => undefined
  const exchange = sender.givingWay(() => new Promise<string>((done) => (finish = () => done('exchanged'))))
  const sending = sender.nudge()
  await new Promise((resolve) => setTimeout(resolve, 50))
  expect(server.asked).toEqual(['GET'])
  finish()
  expect(await exchange).toBe('exchanged')
  await sending
  expect(server.whole.size).toBe(1)
  let stuck = (): void => undefined
  await namedPhoto(database, photo(9))
  server.before = () => new Promise<undefined>((done) => (stuck = () => done(undefined)))
  const slow = sender.nudge()
  await new Promise((resolve) => setTimeout(resolve, 20))
  expect(await sender.givingWay(async () => 'exchanged')).toBe('exchanged')
  server.before = () => undefined
  stuck()
  await slow
})

test('[SYN14] what waits is told by number and bytes as it shrinks, and why where the server is full or will not have one', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  await namedPhoto(database, photo(PIECE_BYTES * 2))
  await namedPhoto(database, photo(100))
  const told: number[] = []
  sender.follow(() => told.push(sender.standing.count))
  server.before = (method) => (method === 'PUT' ? Response.json({ issues: [] }, { status: 507 }) : undefined)
  await sender.nudge()
  expect(sender.standing).toEqual({
    count: 2,
    bytes: PIECE_BYTES * 2 + 100,
    trouble: 'the server has no room for them',
  })
  const issues = [{ path: 'sha256', expected: 'x', received: 'y' }]
  let refusals = 0
  server.before = (method) =>
    method === 'PUT' && (refusals += 1) === 1 ? Response.json({ issues }, { status: 422 }) : undefined
  await sender.nudge()
  expect(sender.standing).toMatchObject({ count: 1, trouble: expect.stringContaining('does not take it') })
  server.before = () => undefined
  await sender.nudge()
  expect(sender.standing).toEqual({ count: 0, bytes: 0 })
  expect(told.at(-1)).toBe(0)
})

test('[SYN12] without a network photos wait, and nothing is said but that', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  await namedPhoto(database, photo(100))
  server.before = () => {
    throw new TypeError('no network')
  }
  await sender.nudge()
  expect(sender.standing).toEqual({ count: 1, bytes: 100 })
})

test('[SYN22] a picture that no entry names yet goes nowhere and is not counted', async () => {
  const server = new PieceServer()
  const { database, sender } = await device(server)
  await keepAttachment(database, photo(100))
  await sender.nudge()
  expect(server.asked).toEqual([])
  expect(sender.standing).toEqual({ count: 0, bytes: 0 })
})

test('[SYN14] on a device too full to note that a photo was sent, that is said, and it is noted as soon as there is room', async () => {
  const server = new PieceServer()
  vi.stubGlobal('fetch', server.fetch)
  const database = await openDatabase(`photo-sender-${(databases += 1)}`)
  await namedPhoto(database, photo(100))
  let full = true
  const crowded = new Proxy(database, {
    get: (target, name) => {
      if (name === 'put' || (name === 'delete' && full))
        return () => Promise.reject(new DOMException('no room', 'QuotaExceededError'))
      const value: unknown = Reflect.get(target, name)
      return typeof value === 'function' ? value.bind(target) : value
    },
  })
  const sender = senderOf(crowded)
  await sender.nudge()
  expect(server.whole.size).toBe(1)
  expect(sender.standing).toMatchObject({ count: 1, trouble: 'this device is full' })
  full = false
  await sender.nudge()
  // without writing the picture again: there is no room for that
  expect(sender.standing).toEqual({ count: 0, bytes: 0 })
  expect(await database.getAllKeys('unsent')).toEqual([])
})
