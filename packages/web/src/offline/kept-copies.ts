import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { attachmentsIn } from '@rillmark/exchange/package/attachments-in.ts'
import { mediaTypeOf } from '@rillmark/exchange/package/media-type.ts'
import { type DeviceDatabase, DURABLE } from '../ledger/database.ts'
import { IdbLedger } from '../ledger/idb-ledger.ts'
import { dropStill } from '../ledger/idb-stills.ts'
import { readingKey } from '../ledger/readings.ts'
import { RESERVED_BYTES, type Room } from './room.ts'

/** How much of an investigation is on this device. */
export type Copy =
  | { readonly kind: 'not here' }
  /** its entries, because it was opened here; its photos stay with the server */
  | { readonly kind: 'opened' }
  | { readonly kind: 'whole'; readonly upToDate: string | undefined; readonly photos: Photos }

export interface Photos {
  readonly here: number
  readonly of: number
}

/** Let go, or what of it has not reached the server yet and would be lost. */
export type LetGo = { readonly ok: true } | { readonly ok: false; readonly entries: number; readonly photos: number }

export interface CopyParts {
  readonly database: DeviceDatabase
  readonly now: () => string
  /** the bytes of a photo; undefined where the server has it not yet. @throws when it can't be reached */
  readonly fetchPhoto: (sha256: string) => Promise<Uint8Array<ArrayBuffer> | undefined>
  readonly room: () => Promise<Room | undefined>
  /** one holder of a name at a time, over all tabs of this browser */
  readonly alone: <T>(name: string, work: () => Promise<T>) => Promise<T>
}

/** The investigations whose whole copy, photos included, a person wants on this device. */
export class KeptCopies {
  readonly #parts: CopyParts
  readonly #ledger: IdbLedger
  readonly #listeners = new Set<() => void>()
  /** those being let go, for which no more photos are fetched */
  readonly #leaving = new Set<string>()

  constructor(parts: CopyParts) {
    this.#parts = parts
    this.#ledger = new IdbLedger(parts.database)
  }

  /** Calls back when a copy has changed. Returns how to stop. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  async kept(): Promise<readonly string[]> {
    return this.#parts.database.getAllKeys('kept')
  }

  async keep(investigation: string): Promise<void> {
    const { database, now } = this.#parts
    const transaction = database.transaction('kept', 'readwrite', DURABLE)
    if ((await transaction.store.getKey(investigation)) === undefined)
      await transaction.store.put({ investigation, since: now() })
    await transaction.done
    this.#tell()
  }

  async copyOf(investigation: string): Promise<Copy> {
    const { database } = this.#parts
    const kept = await database.get('kept', investigation)
    if (kept === undefined) return { kind: (await this.#isHere(investigation)) ? 'opened' : 'not here' }
    const named = attachmentsIn(await this.#entries(investigation))
    const missing = await this.#missing(named)
    return {
      kind: 'whole',
      upToDate: kept.upToDate,
      photos: { here: named.length - missing.length, of: named.length },
    }
  }

  /** After the entries were exchanged: fetches the photos that are not here, as long as they leave room for entries. */
  bringUpToDate(investigation: string): Promise<void> {
    const { database, alone, now } = this.#parts
    return alone(`rillmark-copy-${investigation}`, async () => {
      if ((await database.getKey('kept', investigation)) === undefined) return
      const exchanged = now()
      for (const sha256 of await this.#missing(attachmentsIn(await this.#entries(investigation))))
        if (this.#leaving.has(investigation) || !(await this.#fetchOne(sha256))) break
      const kept = await database.get('kept', investigation)
      if (kept !== undefined) await database.put('kept', { ...kept, upToDate: exchanged })
      this.#tell()
    })
  }

  /**
   * Takes the copy off this device, unless anything of it waits for the server, refused entries included. Numbers given out here stay taken, and
   * photos that another investigation names stay. An exchange and a fetch of photos under way end first: they would bring it back.
   */
  async letGo(investigation: string): Promise<LetGo> {
    const { alone } = this.#parts
    this.#leaving.add(investigation)
    try {
      return await alone(`rillmark-copy-${investigation}`, () =>
        alone(`rillmark-sync-${investigation}`, () => this.#letGo(investigation)),
      )
    } finally {
      this.#leaving.delete(investigation)
    }
  }

  async #letGo(investigation: string): Promise<LetGo> {
    const { database } = this.#parts
    const own = attachmentsIn(await this.#entries(investigation))
    const others = new Set(await this.#namedByOthers(investigation))
    const stores = ['links', 'outbox', 'attachments', 'unsent', 'kept', 'device'] as const
    const transaction = database.transaction(stores, 'readwrite', DURABLE)
    const entries = await transaction.objectStore('outbox').index('in-order').count(rangeOf(investigation))
    const attachments = transaction.objectStore('attachments')
    const unsent = await Promise.all(own.map((sha256) => transaction.objectStore('unsent').getKey(sha256)))
    const photos = unsent.filter((sha256) => sha256 !== undefined).length
    if (entries + photos > 0) {
      await transaction.done
      return { ok: false, entries, photos }
    }
    await Promise.all([
      transaction.objectStore('links').delete(rangeOf(investigation)),
      transaction.objectStore('kept').delete(investigation),
      transaction.objectStore('device').delete(readingKey(investigation)),
      dropStill(transaction.objectStore('device'), investigation),
      ...own.filter((sha256) => !others.has(sha256)).map((sha256) => attachments.delete(sha256)),
      transaction.done,
    ])
    this.#tell()
    return { ok: true }
  }

  /** False where no more can be fetched now. */
  async #fetchOne(sha256: string): Promise<boolean> {
    const { database, fetchPhoto, room } = this.#parts
    const before = await room()
    if (before !== undefined && before.leftBytes < 2 * RESERVED_BYTES) return false
    const content = await fetchPhoto(sha256).catch(() => 'unreachable' as const)
    if (content === 'unreachable') return false
    const mediaType = content === undefined ? undefined : mediaTypeOf(content)
    if (content === undefined || mediaType === undefined || sha256OfBytes(content) !== sha256) return true
    try {
      await database.put('attachments', { sha256, mediaType, content })
      this.#tell()
      return true
    } catch {
      return false
    }
  }

  async #isHere(investigation: string): Promise<boolean> {
    const { database } = this.#parts
    if ((await this.#ledger.head(investigation)).sequence > 0) return true
    return (await database.countFromIndex('outbox', 'in-order', rangeOf(investigation))) > 0
  }

  async #missing(named: readonly string[]): Promise<string[]> {
    const { database } = this.#parts
    const keys = await Promise.all(named.map((sha256) => database.getKey('attachments', sha256)))
    return named.filter((_, index) => keys[index] === undefined)
  }

  async #entries(investigation: string): Promise<readonly Entry[]> {
    const { database } = this.#parts
    const waiting = await database.getAllFromIndex('outbox', 'in-order', rangeOf(investigation))
    const links = await this.#ledger.read(investigation, { after: 0, limit: Number.MAX_SAFE_INTEGER })
    return [...entriesOf(links), ...waiting.map(({ entry }) => entry)]
  }

  async #namedByOthers(investigation: string): Promise<string[]> {
    const { database } = this.#parts
    const waiting = await database.getAll('outbox')
    const others = new Set([...(await this.#ledger.investigations()), ...waiting.map((each) => each.investigation)])
    others.delete(investigation)
    return (await Promise.all([...others].map((other) => this.#entries(other)))).flatMap(attachmentsIn)
  }

  #tell(): void {
    for (const listener of this.#listeners) listener()
  }
}

function rangeOf(investigation: string): IDBKeyRange {
  return IDBKeyRange.bound([investigation, 0], [investigation, Number.MAX_SAFE_INTEGER])
}
