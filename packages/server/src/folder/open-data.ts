import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { Attachments } from '../attachments/attachments.ts'
import { SqliteLedger } from '../ledger/sqlite-ledger.ts'
import { Records } from '../records/records.ts'

/** What a data folder holds. */
export interface Data {
  readonly folder: string
  readonly ledger: SqliteLedger
  readonly records: Records
  readonly attachments: Attachments
}

/** Opens a data folder, making it when absent. */
export function openData(folder: string): Data {
  mkdirSync(folder, { recursive: true })
  const ledger = new SqliteLedger(join(folder, 'records.sqlite'))
  const records = new Records(ledger, () => new Date().toISOString())
  return { folder, ledger, records, attachments: new Attachments(join(folder, 'attachments')) }
}
