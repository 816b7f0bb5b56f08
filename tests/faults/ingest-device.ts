import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { MemoryOutbox } from '@rillmark/casebook/ledger/memory-outbox.ts'
import { type ServerPort, Unreachable } from '../../packages/web/src/sync/server-port.ts'
import { exchange } from '../../packages/web/src/sync/sync-engine.ts'
import { Requests } from './requests.ts'
import type { Chance } from './seed.ts'
import { signingHand } from './signing-hand.ts'
import { type TestPhoto, testPhoto } from './test-photo.ts'

const PIECE_BYTES = 128 * 1024
const PHOTO_BYTES = { least: 30_000, most: 600_000 }
const MOST_WAITING = 60
const WHILE_AWAY_MS = 15

/** What the server said it has, and must have for ever. */
export interface Acknowledged {
  readonly entries: { readonly investigation: string; readonly id: string; readonly sequence: number }[]
  /** by their hashes */
  readonly photos: string[]
}

/**
 * A device that writes, exchanges by the app's own engine and sends photos in pieces without a pause, whatever becomes of the server.
 * It keeps what was acknowledged, and a failure of the kind that must never be.
 */
export class IngestDevice {
  readonly acknowledged: Acknowledged = { entries: [], photos: [] }
  readonly requests: Requests
  failure: unknown
  /** entries written since it began in this investigation */
  written = 0
  #investigation = ''
  #ledger = new MemoryLedger()
  #outbox: MemoryOutbox
  #hand: ReturnType<typeof signingHand>
  #joined = false
  #photo: TestPhoto
  #running: Promise<void> = Promise.resolve()
  #stopping = false
  readonly #name: string
  readonly #chance: Chance
  readonly #shared: () => TestPhoto | undefined

  /** @param shared a photo that another device sends as well */
  constructor({
    name,
    url,
    chance,
    shared,
  }: { name: string; url: () => string; chance: Chance; shared: () => TestPhoto | undefined }) {
    this.#name = name
    this.#chance = chance
    this.#shared = shared
    this.requests = new Requests(url)
    this.#outbox = new MemoryOutbox({ ledger: this.#ledger, device: name })
    this.#hand = signingHand({ investigation: 'none', device: name })
    this.#photo = this.#newPhoto()
  }

  get photo(): TestPhoto {
    return this.#photo
  }

  get replica(): MemoryLedger {
    return this.#ledger
  }

  /** Goes on in another investigation, with nothing held. */
  begin(investigation: string): void {
    this.#investigation = investigation
    this.#ledger = new MemoryLedger()
    this.#outbox = new MemoryOutbox({ ledger: this.#ledger, device: this.#name })
    this.#hand = signingHand({ investigation, device: this.#name })
    this.#joined = false
    this.written = 0
    this.#stopping = false
    this.#running = this.#run().catch((error: unknown) => {
      this.failure ??= error
    })
  }

  /** Stops writing, and exchanges until the server has everything. */
  async finish(): Promise<void> {
    this.#stopping = true
    await this.#running
    const outcome = await this.#exchange()
    const waiting = await this.#outbox.pending(this.#investigation)
    if (outcome.kind !== 'done' || waiting.length > 0)
      throw new Error(`${this.#name} can't finish: ${JSON.stringify(outcome)}, ${waiting.length} entries wait`)
  }

  async #run(): Promise<void> {
    while (!this.#stopping) {
      await this.#write()
      const outcome = await this.#exchange()
      if (outcome.kind === 'parted') throw new Error(`${this.#name}: ${outcome.reason}`)
      if (outcome.kind === 'unreachable' || !(await this.#sendPiece()))
        await new Promise((resolve) => setTimeout(resolve, WHILE_AWAY_MS))
    }
  }

  async #write(): Promise<void> {
    const waiting = (await this.#outbox.pending(this.#investigation)).length
    if (waiting >= MOST_WAITING) return
    const texts = Array.from(
      { length: this.#chance.between(1, 12) },
      (_, n) => `${this.#name} ${waiting + n} ${'é'.repeat(200)}`,
    )
    const entries = this.#joined ? [] : [this.#hand.joined()]
    this.#joined = true
    for (const text of texts) entries.push(this.#hand.make('note.written', { text, purpose: 'note' }))
    await this.#outbox.holdAll(entries)
    this.written += entries.length
  }

  #exchange() {
    const { pull } = this.requests
    const server: ServerPort = { push: (id, entries) => this.#push(id, entries), pull }
    return exchange({ investigation: this.#investigation, ledger: this.#ledger, outbox: this.#outbox, server })
  }

  async #push(investigation: string, entries: readonly Entry[]) {
    const pushed = await this.requests.push(investigation, entries)
    if (pushed.refused.length > 0) throw new Error(`${this.#name}: refused ${JSON.stringify(pushed.refused)}`)
    for (const { id, sequence } of pushed.accepted) this.acknowledged.entries.push({ investigation, id, sequence })
    if (!this.#chance.oneIn(8)) return pushed
    const again = await this.requests.push(investigation, entries)
    if (JSON.stringify(again.accepted) !== JSON.stringify(pushed.accepted))
      throw new Error(
        `${this.#name}: the same batch again was answered ${JSON.stringify(again)} after ${JSON.stringify(pushed)}`,
      )
    return again
  }

  /** The next piece of the photo, where the server says it is due. False when the server is away. */
  async #sendPiece(): Promise<boolean> {
    const { sha256 } = this.#photo
    try {
      const there = await this.requests.received(sha256)
      const whole = there.whole || (await this.#put(there.received)).whole
      if (!whole) return true
      this.acknowledged.photos.push(sha256)
      this.#photo = this.#nextPhoto()
      return true
    } catch (error) {
      if (error instanceof Unreachable) return false
      throw error
    }
  }

  #put(received: number) {
    const { sha256, content } = this.#photo
    const from = received < content.length ? received : Math.max(0, content.length - PIECE_BYTES)
    return this.requests.putPiece(sha256, {
      from,
      of: content.length,
      bytes: content.subarray(from, from + PIECE_BYTES),
    })
  }

  #nextPhoto(): TestPhoto {
    return (this.#chance.oneIn(3) ? this.#shared() : undefined) ?? this.#newPhoto()
  }

  #newPhoto(): TestPhoto {
    return testPhoto(this.#chance.between(PHOTO_BYTES.least, PHOTO_BYTES.most), this.#chance)
  }
}
