import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { Outbox, Pending } from '@rillmark/casebook/ledger/ledger.ts'
import { attachmentsIn } from '@rillmark/exchange/package/attachments-in.ts'
import { abandoned, type DeviceDatabase, DURABLE } from './database.ts'
import { dropStill } from './idb-stills.ts'

/** Entries of this device that the server has not confirmed, in IndexedDB. */
export class IdbOutbox implements Outbox {
  readonly #database: DeviceDatabase
  readonly #device: string

  constructor(database: DeviceDatabase, device: string) {
    this.#database = database
    this.#device = device
  }

  hold(entry: Entry): Promise<void> {
    return this.holdAll([entry])
  }

  /**
   * @param instead ids of those that these are written for: they leave as these come in, both or neither
   * @param back they are from a database that was lost: one whose number is taken stands behind the others, as it was written, and the
   * server says what is wrong with it
   */
  async holdAll(
    entries: readonly Entry[],
    { instead = [], back = false }: { instead?: readonly string[]; back?: boolean } = {},
  ): Promise<void> {
    const transaction = this.#database.transaction(['outbox', 'marks', 'unsent', 'device'], 'readwrite', DURABLE)
    const [outbox, marks] = [transaction.objectStore('outbox'), transaction.objectStore('marks')]
    try {
      await Promise.all(instead.map((id) => outbox.delete(id)))
      for (const entry of entries) {
        const { id, investigation } = entry
        if ((await outbox.getKey(id)) !== undefined) continue
        const highest = (await marks.get(investigation)) ?? 0
        const place = [investigation, entry.deviceSequence] as const
        const taken = back && (await outbox.index('in-order').getKey([...place])) !== undefined
        const deviceSequence = taken ? Math.max(highest, entry.deviceSequence) + 1 : entry.deviceSequence
        const mark = Math.max(highest, deviceSequence)
        await Promise.all([outbox.add({ id, investigation, deviceSequence, entry }), marks.put(mark, investigation)])
      }
      const changed = new Set(entries.map(({ investigation }) => investigation))
      await Promise.all([...changed].map((each) => dropStill(transaction.objectStore('device'), each)))
      // from here on they are of the record, and may be sent
      const unsent = transaction.objectStore('unsent')
      for (const sha256 of attachmentsIn(entries)) {
        const picture = await unsent.get(sha256)
        if (picture?.named === false) await unsent.put({ ...picture, named: true }, sha256)
      }
      await transaction.done
    } catch (error) {
      await abandoned(transaction)
      throw error
    }
  }

  async pending(investigation: string): Promise<Pending[]> {
    const rows = await this.#database.getAllFromIndex('outbox', 'in-order', numbered([investigation]))
    return rows.map(({ entry, refused }) => (refused === undefined ? { entry } : { entry, refused }))
  }

  async refuse(id: string, issues: readonly Issue[]): Promise<void> {
    const transaction = this.#database.transaction(['outbox', 'device'], 'readwrite', DURABLE)
    const outbox = transaction.objectStore('outbox')
    const kept = await outbox.get(id)
    if (kept !== undefined)
      await Promise.all([
        outbox.put({ ...kept, refused: issues }),
        dropStill(transaction.objectStore('device'), kept.investigation),
      ])
    await transaction.done
  }

  async release(ids: readonly string[]): Promise<void> {
    const transaction = this.#database.transaction('outbox', 'readwrite', DURABLE)
    await Promise.all([...ids.map((id) => transaction.store.delete(id)), transaction.done])
  }

  async nextDeviceSequence(investigation: string): Promise<number> {
    const transaction = this.#database.transaction(['marks', 'links'])
    const mark = (await transaction.objectStore('marks').get(investigation)) ?? 0
    const own = await transaction
      .objectStore('links')
      .index('by-device')
      .openCursor(numbered([investigation, this.#device]), 'prev')
    return Math.max(mark, own?.value.deviceSequence ?? 0) + 1
  }

  async investigations(): Promise<string[]> {
    const rows = await this.#database.getAll('outbox')
    return [...new Set(rows.map(({ investigation }) => investigation))].sort()
  }
}

function numbered(prefix: readonly string[]): IDBKeyRange {
  return IDBKeyRange.bound([...prefix, 0], [...prefix, Number.MAX_SAFE_INTEGER])
}
