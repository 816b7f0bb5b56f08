import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { attachmentsIn } from '@rillmark/exchange/package/attachments-in.ts'
import { type AttachmentType, mediaTypeOf } from '@rillmark/exchange/package/media-type.ts'

const NAME = 'rillmark-waiting'
const PHOTOS = '/waiting/photos/'
const ENTRIES = '/waiting/entries/'
const NAMED = '/waiting/named/'
/** On a photo that no entry named when it was kept; those kept by older versions bear nothing, and count as named. */
const UNNAMED = 'x-unnamed'

/** A photo that the server has not confirmed. */
export interface WaitingPhoto {
  readonly sha256: string
  readonly mediaType: AttachmentType
  readonly content: Uint8Array<ArrayBuffer>
  /** whether an entry names it: until one does, it is not sent */
  readonly named: boolean
}

/**
 * A second copy of what is on this device alone, in another store of the browser than IndexedDB. A browser that is killed in the middle of
 * a write may find its whole database broken the next time and begin an empty one (LevelDB, https://github.com/google/leveldb/issues/1287:
 * a log that ends in half a record is written on); what is in its Cache Storage is kept apart, a file each. Where a browser has none, or has
 * no room, there is no second copy and nothing fails for it.
 */
export class SecondCopy {
  readonly #caches: CacheStorage | undefined
  #held = false

  /** Of the window, whose `caches` an address without TLS lacks. */
  constructor({ caches }: { readonly caches?: CacheStorage }) {
    this.#caches = caches
  }

  /** Keeps entries of one act together. */
  async keep(entries: readonly Entry[]): Promise<void> {
    const [first] = entries
    if (first === undefined) return
    const { investigation, id } = first
    // before the entries: these go once they have arrived, and photos may still wait then
    for (const sha256 of attachmentsIn(entries)) await this.#put(NAMED + sha256, () => new Response(''))
    await this.#put(`${addressOf(investigation)}${id}`, () => Response.json(entries))
  }

  async keepPhoto(sha256: string, file: Blob): Promise<void> {
    await this.#put(PHOTOS + sha256, () => new Response(file, { headers: { [UNNAMED]: 'yes' } }))
  }

  /** Drops entries that were replaced, or that a person settled; what was written in one act with them stays. */
  async dropEntries(investigation: string, ids: readonly string[]): Promise<void> {
    if (ids.length === 0) return
    const cache = await this.#opened()
    for (const address of await this.#addresses(addressOf(investigation))) {
      const kept = await cache?.match(address).then(
        (answer) => answer?.json() as Promise<Entry[]>,
        () => undefined,
      )
      const left = kept?.filter(({ id }) => !ids.includes(id))
      if (left === undefined || left.length === kept?.length) continue
      if (left.length === 0) await this.#drop([address])
      else await this.#put(address, () => Response.json(left))
    }
  }

  /** Nothing is dropped by this page any more: not all of it could be brought back. */
  hold(): void {
    this.#held = true
  }

  /** Drops what was kept of an investigation before now, if nothing of it waits any more. */
  async dropUnlessWaiting(investigation: string, isWaiting: () => Promise<boolean>): Promise<void> {
    const kept = await this.#addresses(addressOf(investigation))
    if (kept.length > 0 && !(await isWaiting())) await this.#drop(kept)
  }

  async dropPhoto(sha256: string): Promise<void> {
    await this.#drop([PHOTOS + sha256, NAMED + sha256])
  }

  /** All entries, in no order; some may have arrived since. */
  async entries(): Promise<Entry[]> {
    return (await this.#all(ENTRIES, (answer) => answer.json() as Promise<Entry[]>)).flat()
  }

  async photos(): Promise<WaitingPhoto[]> {
    const named = new Set((await this.#addresses(NAMED)).map((address) => address.slice(NAMED.length)))
    const read = await this.#all(PHOTOS, async (answer, address) => {
      const content = new Uint8Array(await answer.arrayBuffer())
      const mediaType = mediaTypeOf(content)
      const sha256 = address.slice(PHOTOS.length)
      const isNamed = named.has(sha256) || !answer.headers.has(UNNAMED)
      return mediaType === undefined ? [] : [{ sha256, mediaType, content, named: isNamed }]
    })
    return read.flat()
  }

  async #put(address: string, content: () => Response): Promise<void> {
    try {
      await (await this.#caches?.open(NAME))?.put(address, content())
    } catch {
      // the first copy is safe; on a full device there is no room for another
    }
  }

  async #drop(addresses: readonly string[]): Promise<void> {
    const cache = await this.#opened()
    if (cache === undefined || this.#held) return
    await Promise.all(addresses.map((address) => cache.delete(address).catch(() => false)))
  }

  async #all<T>(start: string, read: (answer: Response, address: string) => Promise<T>): Promise<T[]> {
    const cache = await this.#opened()
    const found: T[] = []
    for (const address of await this.#addresses(start)) {
      const answer = await cache?.match(address)
      // half written when the browser was killed: it was not acknowledged then
      if (answer !== undefined)
        found.push(
          ...(await read(answer, address)
            .then((one) => [one])
            .catch(() => [])),
        )
    }
    return found
  }

  async #addresses(start: string): Promise<string[]> {
    const keys = (await (await this.#opened())?.keys().catch(() => [])) ?? []
    return keys.map(({ url }) => new URL(url).pathname).filter((path) => path.startsWith(start))
  }

  /** Not made where there is none: most browsers most of the time have nothing waiting. */
  async #opened(): Promise<Cache | undefined> {
    try {
      return (await this.#caches?.has(NAME)) === true ? await this.#caches?.open(NAME) : undefined
    } catch {
      return undefined
    }
  }
}

const addressOf = (investigation: string): string => `${ENTRIES}${encodeURIComponent(investigation)}/`
