import 'fake-indexeddb/auto'
import { outboxContract } from '@rillmark/casebook/ledger/outbox-contract.ts'
import { openDatabase } from './database.ts'
import { IdbLedger } from './idb-ledger.ts'
import { IdbOutbox } from './idb-outbox.ts'

let databases = 0
outboxContract('IndexedDB', async () => {
  const database = await openDatabase(`outbox-${(databases += 1)}`)
  return { ledger: new IdbLedger(database), outbox: new IdbOutbox(database, 'desk-1') }
})
