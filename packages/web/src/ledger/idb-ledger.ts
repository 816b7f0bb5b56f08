import { emptyHead, type Head, type Link } from '@rillmark/casebook/chain/link.ts'
import { checkContinuation } from '@rillmark/casebook/ledger/continuation.ts'
import type { LedgerCopy } from '@rillmark/casebook/ledger/ledger.ts'
import { abandoned, type DeviceDatabase, DURABLE } from './database.ts'
import { dropStill } from './idb-stills.ts'

/** This device's copy of the records, in IndexedDB. */
export class IdbLedger implements LedgerCopy {
  readonly #database: DeviceDatabase

  constructor(database: DeviceDatabase) {
    this.#database = database
  }

  async commit(links: readonly Link[]): Promise<void> {
    const investigation = links[0]?.entry.investigation
    if (investigation === undefined) return
    const transaction = this.#database.transaction(['links', 'device'], 'readwrite', DURABLE)
    const store = transaction.objectStore('links')
    try {
      const last = await store.openCursor(allOf(investigation), 'prev')
      const known = new Set<string>()
      for (const { entry } of links)
        if ((await store.index('by-id').getKey([investigation, entry.id])) !== undefined) known.add(entry.id)
      checkContinuation(links, { head: headOf(investigation, last?.value.link), has: (id) => known.has(id) })
      for (const link of links) await store.add(kept(link))
      await dropStill(transaction.objectStore('device'), investigation)
      await transaction.done
    } catch (error) {
      await abandoned(transaction)
      throw error
    }
  }

  async read(investigation: string, { after, limit }: { after: number; limit: number }): Promise<Link[]> {
    const range = IDBKeyRange.bound([investigation, after], [investigation, Number.MAX_SAFE_INTEGER], true)
    const rows = await this.#database.getAll('links', range, Math.min(limit, MOST_ROWS))
    return rows.map(({ link }) => link)
  }

  async head(investigation: string): Promise<Head> {
    const cursor = await this.#database.transaction('links').store.openCursor(allOf(investigation), 'prev')
    return headOf(investigation, cursor?.value.link)
  }

  async sequencesOf(investigation: string, ids: readonly string[]): Promise<Map<string, number>> {
    const index = this.#database.transaction('links').store.index('by-id')
    const found = await Promise.all(
      ids.map(async (id) => [id, (await index.getKey([investigation, id]))?.[1]] as const),
    )
    return new Map(found.flatMap(([id, sequence]) => (sequence === undefined ? [] : [[id, sequence] as const])))
  }

  async numbersOf(
    investigation: string,
    { devices, upTo }: { devices: readonly string[]; upTo: number },
  ): Promise<Map<string, number>> {
    const index = this.#database.transaction('links').store.index('by-device')
    const found = await Promise.all(
      devices.map(async (device) => {
        const range = IDBKeyRange.bound([investigation, device, 0], [investigation, device, Number.MAX_SAFE_INTEGER])
        let cursor = await index.openKeyCursor(range, 'prev')
        while (cursor !== null && cursor.primaryKey[1] > upTo) cursor = await cursor.continue()
        return cursor === null ? [] : [[device, cursor.key[2]] as const]
      }),
    )
    return new Map(found.flat())
  }

  async investigations(): Promise<string[]> {
    const ids: string[] = []
    let cursor = await this.#database.transaction('links').store.openKeyCursor()
    while (cursor !== null) {
      const [investigation] = cursor.primaryKey
      ids.push(investigation)
      cursor = await cursor.continue([investigation, Number.MAX_SAFE_INTEGER])
    }
    return ids
  }

  async forget(investigation: string): Promise<void> {
    const transaction = this.#database.transaction(['links', 'device'], 'readwrite')
    await Promise.all([
      transaction.objectStore('links').delete(allOf(investigation)),
      dropStill(transaction.objectStore('device'), investigation),
      transaction.done,
    ])
  }

  async close(): Promise<void> {
    this.#database.close()
  }
}

/** getAll takes an unsigned 32-bit count. */
const MOST_ROWS = 2 ** 32 - 1

const allOf = (investigation: string): IDBKeyRange =>
  IDBKeyRange.bound([investigation, 0], [investigation, Number.MAX_SAFE_INTEGER])

function headOf(investigation: string, last: Link | undefined): Head {
  return last === undefined ? emptyHead(investigation) : { sequence: last.sequence, hash: last.hash }
}

function kept(link: Link) {
  const { investigation, id, device, deviceSequence } = link.entry
  return { investigation, sequence: link.sequence, id, device, deviceSequence, link }
}
