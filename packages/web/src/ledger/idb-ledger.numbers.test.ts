import 'fake-indexeddb/auto'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { openDatabase } from './database.ts'
import { IdbLedger } from './idb-ledger.ts'

test('[SYN4] the highest number of each device is told up to where it is asked for', async () => {
  const [phone, desk] = [
    entryMaker('marram-house', { device: 'phone' }),
    entryMaker('marram-house', { device: 'desk' }),
  ]
  const note = ({ make }: typeof phone) => make('note.written', { text: 'one', purpose: 'note' })
  const links = linkEntries(emptyHead('marram-house'), {
    entries: [note(phone), note(desk), note(phone), note(desk), note(phone)],
    received: '2026-03-02T12:00:00.000Z',
  })
  const devices = ['phone', 'desk', 'nobody']
  for (const ledger of [new IdbLedger(await openDatabase('numbers')), new MemoryLedger()]) {
    await ledger.commit(links)
    const told = async (upTo: number) => Object.fromEntries(await ledger.numbersOf('marram-house', { devices, upTo }))
    expect([await told(5), await told(4), await told(1), await told(0)]).toEqual([
      { phone: 3, desk: 2 },
      { phone: 2, desk: 2 },
      { phone: 1 },
      {},
    ])
  }
})
