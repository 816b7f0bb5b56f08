import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Pending } from '@rillmark/casebook/ledger/ledger.ts'
import type { AttachmentType } from '@rillmark/exchange/package/media-type.ts'
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from 'idb'
import type { PublicKey } from '../sync/device-key.ts'

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
}

/** A picture the server has not. That it has one is noted by leaving this out, which needs no room on a full device. */
export interface Unsent {
  readonly bytes: number
  /** whether an entry names it; until one does it is nobody's but this device's */
  readonly named: boolean
}

/** An investigation whose whole copy, pictures included, is kept on this device because a person asked for it. */
export interface KeptInvestigation {
  readonly investigation: string
  /** UTC instants */
  readonly since: string
  readonly upToDate?: string
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
  /** its index is of version 1, by a field that nothing writes any more */
  attachments: { key: string; value: KeptAttachment; indexes: { waiting: number } }
  /** what this device is: its id; and what is half done on it, by `draft` and a name */
  device: { key: string; value: string }
  /** since version 2: the key this device signs with, under `device` */
  keys: { key: string; value: { readonly privateKey: CryptoKey; readonly publicKey: PublicKey } }
  /** since version 2 */
  kept: { key: string; value: KeptInvestigation }
  /** since version 3, by the hash of the picture */
  unsent: { key: string; value: Unsent }
}

export type DeviceDatabase = IDBPDatabase<DeviceSchema>

type Upgrade = (database: DeviceDatabase, transaction: UpgradeTransaction) => void
type UpgradeTransaction = IDBPTransaction<DeviceSchema, StoreNames<DeviceSchema>[], 'versionchange'>

/**
 * What each version adds to the one before it, the first at index 0. Only forward: a step that was ever released is not changed again, and
 * none may drop what is kept.
 */
const UPGRADES: readonly Upgrade[] = [
  (database) => {
    const links = database.createObjectStore('links', { keyPath: ['investigation', 'sequence'] })
    links.createIndex('by-id', ['investigation', 'id'], { unique: true })
    links.createIndex('by-device', ['investigation', 'device', 'deviceSequence'])
    const outbox = database.createObjectStore('outbox', { keyPath: 'id' })
    outbox.createIndex('in-order', ['investigation', 'deviceSequence'], { unique: true })
    database.createObjectStore('marks')
    database.createObjectStore('attachments', { keyPath: 'sha256' }).createIndex('waiting', 'waiting')
    database.createObjectStore('device')
  },
  (database) => {
    database.createObjectStore('keys')
    database.createObjectStore('kept', { keyPath: 'investigation' })
  },
  (database, transaction) => {
    database.createObjectStore('unsent')
    carryWaiting(transaction).catch(() => transaction.abort())
  },
]

/** What waited by the field of version 1. All of it was on its way, so it goes on. */
async function carryWaiting(transaction: UpgradeTransaction): Promise<void> {
  const unsent = transaction.objectStore('unsent')
  let cursor = await transaction.objectStore('attachments').index('waiting').openCursor(1)
  while (cursor !== null) {
    await unsent.put({ bytes: cursor.value.content.length, named: true }, cursor.value.sha256)
    cursor = await cursor.continue()
  }
}

/** Opens what this browser keeps. Another tab that brings a newer version is let through; `onLetGo` says that this one was closed. */
export function openDatabase(
  name = 'rillmark',
  { onLetGo }: { onLetGo?: (why: 'newer version' | 'browser') => void } = {},
): Promise<DeviceDatabase> {
  return openDB<DeviceSchema>(name, UPGRADES.length, {
    upgrade: (database, from, _to, transaction) => {
      for (const step of UPGRADES.slice(from)) step(database, transaction)
    },
    blocking: (_current, _blocked, event) => {
      const held = event.target as IDBDatabase
      held.close()
      onLetGo?.('newer version')
    },
    terminated: () => onLetGo?.('browser'),
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
