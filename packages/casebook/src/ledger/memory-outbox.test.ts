import { MemoryLedger } from './memory-ledger.ts'
import { MemoryOutbox } from './memory-outbox.ts'
import { outboxContract } from './outbox-contract.ts'

outboxContract('memory', async () => {
  const ledger = new MemoryLedger()
  return { ledger, outbox: new MemoryOutbox({ ledger, device: 'desk-1' }) }
})
