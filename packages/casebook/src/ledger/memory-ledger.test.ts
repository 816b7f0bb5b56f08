import { ledgerContract } from './ledger-contract.ts'
import { MemoryLedger } from './memory-ledger.ts'

ledgerContract('memory', async () => new MemoryLedger())
