import { randomBytes } from 'node:crypto'

const NONCE_BYTES = 32
const LIFE_MS = 120_000
const MOST_OPEN = 10_000

/**
 * Numbers used once: what a device signs to show that it holds its key now. Kept in memory alone; a restart costs a device one more
 * question. Times are the server's, so a device with a wrong clock gets in like any other.
 */
export class Challenges {
  readonly #open = new Map<string, { readonly device: string; readonly expires: number }>()
  readonly #now: () => number

  /** @param now milliseconds since 1970 */
  constructor(now: () => number) {
    this.#now = now
  }

  make(device: string): { nonce: string; expires: number } {
    const nonce = randomBytes(NONCE_BYTES).toString('base64url')
    const expires = this.#now() + LIFE_MS
    this.#open.set(nonce, { device, expires })
    for (const [old, { expires: end }] of this.#open) {
      if (end > this.#now() && this.#open.size <= MOST_OPEN) break
      this.#open.delete(old)
    }
    return { nonce, expires }
  }

  /** Whether a nonce was given to this device and is still good; it is used up by asking, whatever the answer. */
  use(nonce: string, device: string): boolean {
    const found = this.#open.get(nonce)
    this.#open.delete(nonce)
    return found !== undefined && found.device === device && found.expires > this.#now()
  }
}
