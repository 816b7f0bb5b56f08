import 'fake-indexeddb/auto'
import { linkEntries, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { IdbOutbox } from '../ledger/idb-outbox.ts'
import { uuid7 } from '../sync/uuid7.ts'
import { copyWords, stillWaitingWords } from './copy-words.ts'
import { KeptCopies } from './kept-copies.ts'

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
const picture = (byte: number) => Uint8Array.of(...PNG, byte)
const NOW = '2026-03-04T14:05:00.000Z'
const plenty = async () => ({ usedBytes: 0, leftBytes: 1e9 })

let databases = 0

/** A device with photos in its records, and the bytes its server holds. */
async function device() {
  const database = await openDatabase(`copies-${(databases += 1)}`)
  const photos = new Map<string, Uint8Array<ArrayBuffer>>()
  const [ledger, outbox] = [new IdbLedger(database), new IdbOutbox(database, 'browser-1')]
  const [fetched, at] = [[] as string[], { room: plenty, cut: false }]
  const tails = new Map<string, Promise<unknown>>()
  const alone = <T>(name: string, work: () => Promise<T>): Promise<T> => {
    const turn = (tails.get(name) ?? Promise.resolve()).then(work)
    tails.set(
      name,
      turn.catch(() => undefined),
    )
    return turn
  }
  const copies = new KeptCopies({
    database,
    now: () => NOW,
    alone,
    room: () => at.room(),
    fetchPhoto: async (sha256) => {
      if (at.cut) throw new Error('no network')
      fetched.push(sha256)
      return photos.get(sha256)
    },
  })
  const entry = async (investigation: string, byte: number): Promise<Entry> => ({
    id: uuid7(),
    investigation,
    kind: 'photo.taken',
    author: 'R. Vale',
    device: 'browser-1',
    deviceSequence: await outbox.nextDeviceSequence(investigation),
    instant: NOW,
    offset: '+00:00',
    body: {
      sha256: sha256OfBytes(picture(byte)),
      mediaType: 'image/png',
      bytes: 9,
      shows: 'a tap',
      round: 'R1',
      stop: 'S1',
    },
  })
  /** A photo named by an entry that the server has confirmed. */
  const photo = async (investigation: string, byte: number): Promise<string> => {
    const entries = [await entry(investigation, byte)]
    await ledger.commit(linkEntries(await ledger.head(investigation), { entries, received: NOW }))
    return sha256OfBytes(picture(byte))
  }
  /** A photo taken here, its entry still on its way. */
  const taken = async (investigation: string, byte: number): Promise<Entry> => {
    const made = await entry(investigation, byte)
    await outbox.hold(made)
    await keepPicture(byte)
    return made
  }
  const keepPicture = async (byte: number): Promise<void> => {
    const content = picture(byte)
    const sha256 = sha256OfBytes(content)
    await database.put('attachments', { sha256, mediaType: 'image/png', content })
    await database.put('unsent', { bytes: content.length, named: true }, sha256)
  }
  return { alone, database, photos, fetched, at, copies, ledger, outbox, photo, taken }
}

const words = async (copies: KeptCopies, investigation = 'marram-house') =>
  copyWords(await copies.copyOf(investigation), (instant) => instant.slice(11, 16))

test('[OFF3] what is kept has its photos fetched, once each, and says how far it is and since when', async () => {
  const { copies, photos, fetched, at, photo } = await device()
  const [first, second] = [await photo('marram-house', 1), await photo('marram-house', 2)]
  expect(await words(copies)).toBe('Entries on this device, photos on the server')
  expect(await words(copies, 'another')).toBe('Not on this device')
  await copies.bringUpToDate('marram-house')
  expect(fetched).toEqual([])
  await copies.keep('marram-house')
  expect(await words(copies)).toBe('Being fetched to this device')
  at.cut = true
  await copies.bringUpToDate('marram-house')
  expect(await words(copies)).toBe('Kept on this device, 0 of 2 photos so far · up to date 14:05')
  at.cut = false
  photos.set(first, picture(1))
  await copies.bringUpToDate('marram-house')
  // the second is still on another phone
  expect(await words(copies)).toBe('Kept on this device, 1 of 2 photos so far · up to date 14:05')
  photos.set(second, picture(2))
  await copies.bringUpToDate('marram-house')
  expect(await words(copies)).toBe('Whole copy on this device, 2 photos included · up to date 14:05')
  await copies.bringUpToDate('marram-house')
  expect(fetched).toEqual([first, second, second])
})

test('[OFF3] bytes that are not those of the hash are not kept', async () => {
  const { copies, photos, photo } = await device()
  photos.set(await photo('marram-house', 1), picture(9))
  await copies.keep('marram-house')
  await copies.bringUpToDate('marram-house')
  expect(await words(copies)).toBe('Kept on this device, 0 of 1 photo so far · up to date 14:05')
})

test('[OFF5] no photo is fetched that would take the room of entries', async () => {
  const { copies, photos, at, fetched, photo } = await device()
  photos.set(await photo('marram-house', 1), picture(1))
  await copies.keep('marram-house')
  at.room = async () => ({ usedBytes: 0, leftBytes: 30 * 1024 ** 2 })
  await copies.bringUpToDate('marram-house')
  expect(fetched).toEqual([])
})

test('[OFF4] what waits for the server is not let go, and says how much; then it goes whole, but for what others name', async () => {
  const { copies, photos, database, ledger, outbox, photo, taken } = await device()
  photos.set(await photo('marram-house', 1), picture(1))
  const shared = await photo('marram-house', 2)
  photos.set(shared, picture(2))
  await photo('another', 2)
  await copies.keep('marram-house')
  await copies.bringUpToDate('marram-house')
  const waiting = await taken('marram-house', 3)
  const refused = await copies.letGo('marram-house')
  expect(refused).toEqual({ ok: false, entries: 1, photos: 1 })
  expect(refused.ok ? '' : stillWaitingWords(refused)).toMatch(/^Not let go: 1 entry and 1 photo of it are only on/)
  expect(await ledger.head('marram-house')).toMatchObject({ sequence: 2 })
  await outbox.refuse(waiting.id, [{ path: 'body', expected: 'x', received: 'y' }])
  expect(await copies.letGo('marram-house')).toMatchObject({ ok: false, entries: 1 })
  const received = { entries: [waiting], received: NOW }
  await ledger.commit(linkEntries(await ledger.head('marram-house'), received))
  await outbox.release([waiting.id])
  expect(await copies.letGo('marram-house')).toEqual({ ok: false, entries: 0, photos: 1 })
  await database.delete('unsent', sha256OfBytes(picture(3)))
  expect(await copies.letGo('marram-house')).toEqual({ ok: true })
  expect(await words(copies)).toBe('Not on this device')
  expect(await database.getAllKeys('attachments')).toEqual([shared])
  expect(await ledger.head('another')).toMatchObject({ sequence: 1 })
  // a number once given out is never given out again
  expect(await outbox.nextDeviceSequence('marram-house')).toBe(4)
})

test('[OFF4] what is under way while a copy is let go ends first, and brings nothing of it back', async () => {
  const { alone, copies, photos, database, ledger, fetched, at, photo } = await device()
  for (const byte of [1, 2, 3]) photos.set(await photo('marram-house', byte), picture(byte))
  await copies.keep('marram-house')
  let fetching = (): void => undefined
  const begun = new Promise<void>((done) => (fetching = done))
  let answer = (): void => undefined
  at.room = async () => {
    fetching()
    await new Promise<void>((done) => (answer = done))
    return plenty()
  }
  const updating = copies.bringUpToDate('marram-house')
  await begun
  let exchanged = (): void => undefined
  const exchange = alone('rillmark-sync-marram-house', () => new Promise<void>((done) => (exchanged = done)))
  const leaving = copies.letGo('marram-house')
  answer()
  await updating
  // a link that an exchange brings at this very moment goes with the rest
  await photo('marram-house', 4)
  exchanged()
  await exchange
  expect(await leaving).toEqual({ ok: true })
  expect(fetched).toHaveLength(1)
  expect(await database.count('attachments')).toBe(0)
  expect((await ledger.head('marram-house')).sequence).toBe(0)
})
