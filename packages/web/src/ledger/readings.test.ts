import 'fake-indexeddb/auto'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { emptyHead, type Link, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { openDatabase } from './database.ts'
import { Readings } from './readings.ts'

const ID = 'marram-house'
let databases = 0

/** Notes of one record; the text of the second reads otherwise than it was written: without the spaces around it. */
function notes(texts: readonly string[], aheadS?: number): Link[] {
  const { make } = entryMaker(ID)
  const entries = texts.map((text) => make('note.written', { text, purpose: 'note' }))
  return linkEntries(emptyHead(ID), { entries, received: '2026-03-02T09:00:00.000Z', ahead: () => aheadS })
}

const TEXTS = ['one', ' two ', 'three']

async function device() {
  const database = await openDatabase(`readings-${(databases += 1)}`)
  return {
    open: (schemas: string | undefined = 'of today') => new Readings({ database, investigation: ID, schemas }),
    inDevelopment: () => new Readings({ database, investigation: ID }),
    kept: async () => JSON.parse((await database.get('device', `reading ${ID}`)) ?? 'null') as unknown,
  }
}

test('[OFF16] what the schemas read as written is not read through them again, what they read otherwise is', async () => {
  const { open, kept } = await device()
  const links = notes(TEXTS)
  expect(await open().next(links)).toEqual(entriesOf(links))
  expect(await kept()).toEqual({ schemas: 'of today', sequence: 3, hash: links[2]?.hash, otherwise: [2] })
  const again = await open().next(links)
  expect(again).toEqual(entriesOf(links))
  expect(again[0]).toBe(links[0]?.entry)
  expect(again[1]).not.toBe(links[1]?.entry)
})

test('[OFF16] links that came later go through the schemas once', async () => {
  const { open, kept } = await device()
  const links = notes([...TEXTS, ' four '])
  await open().next(links.slice(0, 3))
  expect(await open().next(links)).toEqual(entriesOf(links))
  expect(await kept()).toMatchObject({ sequence: 4, otherwise: [2, 4] })
  const reading = open()
  expect([...(await reading.next(links.slice(0, 2))), ...(await reading.next(links.slice(2)))]).toEqual(
    entriesOf(links),
  )
})

test('[OFF16] with other schemas, another record or none known, everything goes through them', async () => {
  const { open } = await device()
  const links = notes(TEXTS)
  await open().next(links)
  expect((await open('of tomorrow').next(links))[0]).not.toBe(links[0]?.entry)
  const other = notes(['one', 'else', 'other'])
  expect((await open('of tomorrow').next(other))[0]).not.toBe(other[0]?.entry)
  const { inDevelopment, kept } = await device()
  await inDevelopment().next(links)
  expect(await kept()).toBeNull()
})

test('[OFF16] times are read by the right clock whichever way an entry is read', async () => {
  const { open } = await device()
  const links = notes(TEXTS, 3600)
  await open().next(links)
  expect(await open().next(links)).toEqual(entriesOf(links))
})

test.each([
  ['a gap', (links: Link[]) => links.filter(({ sequence }) => sequence !== 2), 'entry 2 .* number 3'],
  [
    'no entry',
    (links: Link[]) => links.map((link) => (link.sequence === 2 ? { ...link, entry: {} as Link['entry'] } : link)),
    'entry 2 .* no entry',
  ],
  [
    'an entry of another record',
    (links: Link[]) =>
      links.map((link) => (link.sequence === 3 ? { ...link, entry: { ...link.entry, investigation: 'other' } } : link)),
    'entry 3 .* of other',
  ],
])('[OFF16] what is kept with %s is named and not read', async (_, damaged, message) => {
  const { open } = await device()
  await open().next(notes(TEXTS))
  await expect(open().next(damaged(notes(TEXTS)))).rejects.toThrow(new RegExp(message))
})
