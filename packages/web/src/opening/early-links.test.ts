import 'fake-indexeddb/auto'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { openDatabase } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { readEarly, takeEarly } from './early-links.ts'

const ID = 'marram-house'

test('where this browser keeps nothing yet, nothing is read and nothing made', async () => {
  void readEarly(ID)
  expect(await takeEarly(ID)).toBeUndefined()
  expect(await indexedDB.databases()).toEqual([])
})

test('the links of one investigation are read as the ledger keeps them, and handed out once', async () => {
  const database = await openDatabase()
  const { make } = entryMaker(ID)
  const entries = ['one', 'two'].map((text) => make('note.written', { text, purpose: 'note' }))
  const links = linkEntries(emptyHead(ID), { entries, received: '2026-03-02T09:00:00.000Z' })
  await new IdbLedger(database).commit(links)
  void readEarly(ID)
  expect(await takeEarly('another')).toBeUndefined()
  expect(await takeEarly(ID)).toEqual(links)
  expect(await takeEarly(ID)).toBeUndefined()
  database.close()
})
