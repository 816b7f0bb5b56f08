import 'fake-indexeddb/auto'
import { ledgerContract } from '@rillmark/casebook/ledger/ledger-contract.ts'
import { openDatabase } from './database.ts'
import { IdbLedger } from './idb-ledger.ts'

// fake-indexeddb 6: an implementation of the W3C Indexed Database API for Node
let databases = 0
ledgerContract('IndexedDB', async () => new IdbLedger(await openDatabase(`ledger-${(databases += 1)}`)))
