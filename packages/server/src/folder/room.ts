/** Left free on the disk for entries: pictures and packages stop before the record does. */
export const RESERVED_BYTES = 256 * 1024 * 1024
/** The disk is asked so often at most; what was let in meanwhile is counted. */
const ASKED_EVERY_MS = 1000

/** How much the disk of a data folder still takes of what is no entry. */
export class Room {
  readonly #freeBytes: () => Promise<number>
  readonly #now: () => number
  #free = { asked: Number.NEGATIVE_INFINITY, bytes: 0 }

  /** @param now milliseconds since 1970 */
  constructor({ freeBytes, now }: { freeBytes: () => Promise<number>; now: () => number }) {
    this.#freeBytes = freeBytes
    this.#now = now
  }

  /** Whether so many bytes more leave enough for entries; then they count as taken. */
  async takes(bytes: number): Promise<boolean> {
    const now = this.#now()
    if (now - this.#free.asked > ASKED_EVERY_MS) this.#free = { asked: now, bytes: await this.#freeBytes() }
    if (this.#free.bytes - bytes < RESERVED_BYTES) return false
    this.#free.bytes -= bytes
    return true
  }
}
