import 'fake-indexeddb/auto'
import { outboxContract } from '@rillmark/casebook/ledger/outbox-contract.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { openDatabase } from './database.ts'
import { IdbLedger } from './idb-ledger.ts'
import { IdbOutbox } from './idb-outbox.ts'

let databases = 0
const opened = () => openDatabase(`outbox-${(databases += 1)}`)

outboxContract('IndexedDB', async () => {
  const database = await opened()
  return { ledger: new IdbLedger(database), outbox: new IdbOutbox(database, 'desk-1') }
})

test('[OUT6] where one of several can’t be kept, none is', async () => {
  const outbox = new IdbOutbox(await opened(), 'desk-1')
  const { make } = entryMaker('marram-house')
  const first = make('note.written', { text: 'one', purpose: 'note' })
  const clash = { ...make('note.written', { text: 'two', purpose: 'note' }), deviceSequence: first.deviceSequence }
  await expect(outbox.holdAll([first, clash])).rejects.toMatchObject({ name: 'ConstraintError' })
  expect(await outbox.pending('marram-house')).toEqual([])
  expect(await outbox.nextDeviceSequence('marram-house')).toBe(1)
})
