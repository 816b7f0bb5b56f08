import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Pending } from '@rillmark/casebook/ledger/ledger.ts'
import type { AttachmentType } from '@rillmark/exchange/package/media-type.ts'
import { type DBSchema, type IDBPDatabase, openDB } from 'idb'

export interface KeptLink {
  readonly investigation: string
  readonly sequence: number
  readonly id: string
  readonly device: string
  readonly deviceSequence: number
  readonly link: Link
}

export interface KeptPending extends Pending {
  readonly id: string
  readonly investigation: string
  readonly deviceSequence: number
}

export interface KeptAttachment {
  readonly sha256: string
  readonly mediaType: AttachmentType
  readonly content: Uint8Array<ArrayBuffer>
  /** 1 until the server has it: IndexedDB can't index true and false */
  readonly waiting: 0 | 1
}

export interface DeviceSchema extends DBSchema {
  links: {
    key: [string, number]
    value: KeptLink
    indexes: { 'by-id': [string, string]; 'by-device': [string, string, number] }
  }
  outbox: { key: string; value: KeptPending; indexes: { 'in-order': [string, number] } }
  /** the highest device number ever given out, by investigation */
  marks: { key: string; value: number }
  attachments: { key: string; value: KeptAttachment; indexes: { waiting: number } }
  /** what this device is: its id; and what is half done on it, by `draft` and a name */
  device: { key: string; value: string }
}

export type DeviceDatabase = IDBPDatabase<DeviceSchema>

const VERSION = 1

/** Opens what this browser keeps. Another tab that brings a newer version is let through. */
export function openDatabase(name = 'rillmark'): Promise<DeviceDatabase> {
  return openDB<DeviceSchema>(name, VERSION, {
    upgrade(database) {
      const links = database.createObjectStore('links', { keyPath: ['investigation', 'sequence'] })
      links.createIndex('by-id', ['investigation', 'id'], { unique: true })
      links.createIndex('by-device', ['investigation', 'device', 'deviceSequence'])
      const outbox = database.createObjectStore('outbox', { keyPath: 'id' })
      outbox.createIndex('in-order', ['investigation', 'deviceSequence'], { unique: true })
      database.createObjectStore('marks')
      database.createObjectStore('attachments', { keyPath: 'sha256' }).createIndex('waiting', 'waiting')
      database.createObjectStore('device')
    },
    blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
  })
}

/** Commits are flushed to disk before they are acknowledged, where the browser can. */
export const DURABLE = { durability: 'strict' } as const

/** Leaves nothing of a transaction that failed. */
export async function abandoned(transaction: { abort: () => void; done: Promise<void> }): Promise<void> {
  try {
    transaction.abort()
  } catch {
    // it was over already
  }
  await transaction.done.catch(() => undefined)
}
