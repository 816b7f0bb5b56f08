import type { DeviceDatabase } from '../ledger/database.ts'
import { withReserve } from '../offline/reserve.ts'
import { isFull } from '../offline/room.ts'
import { lookAtRoomAgain } from '../offline/storage.ts'
import type { PhotoStanding } from './photo-words.ts'
import { sendPicture } from './send-picture.ts'
import { Refused, Unreachable } from './server-port.ts'
import type { Exchange } from './sync-engine.ts'
import { type LoopTimers, SyncLoop } from './sync-loop.ts'

export interface PhotoParts {
  readonly database: DeviceDatabase
  /** one holder of a name at a time, over all tabs of this browser */
  readonly alone: <T>(name: string, work: () => Promise<T>) => Promise<T>
  readonly timers?: LoopTimers
  /** after the server has a photo and this device knows it */
  readonly sent?: (sha256: string) => Promise<void>
}

const TELL_EVERY_MS = 500

/**
 * Sends the photos of this device, of every investigation, one after the other and each in pieces. It runs beside the exchange of
 * entries and lets it go first: between two pieces it waits until no exchange is under way.
 */
export class PhotoSender {
  readonly #parts: PhotoParts
  readonly #loop: SyncLoop
  readonly #listeners = new Set<() => void>()
  /** bytes still to go, by the hash of each photo that waits */
  #left = new Map<string, number>()
  #trouble: string | undefined
  #told = { count: 0, at: 0 }
  #exchanges = 0
  #resume: (() => void)[] = []

  constructor(parts: PhotoParts) {
    this.#parts = parts
    this.#loop = new SyncLoop(() => this.#sendAll(), parts.timers)
  }

  get standing(): PhotoStanding {
    const bytes = [...this.#left.values()].reduce((sum, left) => sum + left, 0)
    const standing = { count: this.#left.size, bytes }
    return this.#trouble === undefined ? standing : { ...standing, trouble: this.#trouble }
  }

  /** Sends soon. The promise is for whoever must wait for the end; screens need not. */
  async nudge(): Promise<void> {
    await this.#count().catch(() => undefined)
    await this.#loop.nudge()
  }

  /** The network is back. */
  async restart(): Promise<void> {
    await this.#count().catch(() => undefined)
    await this.#loop.restart()
  }

  stop(): void {
    this.#loop.stop()
  }

  /** Calls back whenever the standing may have changed. Returns how to stop. */
  follow(listener: () => void): () => void {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  /** Runs an exchange of entries; no piece of a photo is begun until it is over. */
  async givingWay<T>(exchange: () => Promise<T>): Promise<T> {
    this.#exchanges += 1
    try {
      return await exchange()
    } finally {
      this.#exchanges -= 1
      if (this.#exchanges === 0) for (const go of this.#resume.splice(0)) go()
    }
  }

  #giveWay(): Promise<void> {
    return this.#exchanges === 0 ? Promise.resolve() : new Promise((go) => this.#resume.push(go))
  }

  #sendAll(): Promise<Exchange> {
    return this.#parts.alone('rillmark-photos', async () => {
      this.#tell(undefined)
      try {
        let refused: string | undefined
        for (const sha256 of await this.#count()) refused = (await this.#send(sha256)) ?? refused
        this.#tell(refused)
        return refused === undefined ? { kind: 'done' } : { kind: 'unreachable', reason: refused }
      } catch (error) {
        if (!(error instanceof Unreachable)) throw error
        this.#tell(error.told)
        return { kind: 'unreachable', reason: error.message }
      }
    })
  }

  /** One photo; why the server will not have it. That one waits for another time and does not hold up the next. */
  async #send(sha256: string): Promise<string | undefined> {
    const { database } = this.#parts
    const kept = await database.get('attachments', sha256)
    if (kept === undefined) return undefined
    const left = (received: number): void => {
      this.#left.set(sha256, Math.max(0, kept.content.length - received))
      this.#tell(this.#trouble)
    }
    try {
      await sendPicture(kept, { giveWay: () => this.#giveWay(), tell: left })
    } catch (error) {
      if (error instanceof Refused) return `the server does not take it (${error.message})`
      throw error
    }
    try {
      await withReserve(() => database.delete('unsent', sha256), lookAtRoomAgain)
    } catch (error) {
      if (isFull(error)) return 'this device is full'
      throw error
    }
    await this.#parts.sent?.(sha256)
    this.#left.delete(sha256)
    this.#tell(this.#trouble)
    return undefined
  }

  /** Looks which photos wait: those that an entry names. */
  async #count(): Promise<string[]> {
    const { store } = this.#parts.database.transaction('unsent')
    const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()])
    const left = new Map<string, number>()
    for (const [index, { bytes, named }] of values.entries()) {
      const sha256 = keys[index]
      if (named && sha256 !== undefined) left.set(sha256, this.#left.get(sha256) ?? bytes)
    }
    this.#left = left
    this.#tell(this.#trouble)
    return [...left.keys()]
  }

  /** At once where a photo came, went or is in trouble; while one is on its way now and then. */
  #tell(trouble: string | undefined): void {
    const changed = this.#left.size !== this.#told.count || trouble !== this.#trouble
    this.#trouble = trouble
    const now = performance.now()
    if (!changed && now - this.#told.at < TELL_EVERY_MS) return
    this.#told = { count: this.#left.size, at: now }
    for (const listener of this.#listeners) listener()
  }
}
