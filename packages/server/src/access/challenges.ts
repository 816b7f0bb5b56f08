import { randomBytes } from 'node:crypto'

const NONCE_BYTES = 32
const LIFE_MS = 120_000
/** A device asks for one, and again where an answer was lost; whoever asks more in its name leaves it the latest. */
const MOST_A_DEVICE = 20

interface Challenge {
  readonly nonce: string
  readonly expires: number
}

/**
 * Numbers used once: what a device signs to show that it holds its key now. Kept in memory alone, by device, and for those that were let in
 * only: nobody pushes out the numbers of others. A restart costs a device one more question. Times are the server's, so a device with a wrong
 * clock gets in like any other.
 */
export class Challenges {
  readonly #open = new Map<string, readonly Challenge[]>()
  readonly #now: () => number
  readonly #isIn: (device: string) => boolean

  /** @param now milliseconds since 1970 */
  constructor(now: () => number, isIn: (device: string) => boolean) {
    this.#now = now
    this.#isIn = isIn
  }

  /** The same for a device that is not in, but nothing is kept: no answer tells which devices there are. */
  make(device: string): Challenge {
    const nonce = randomBytes(NONCE_BYTES).toString('base64url')
    const made = { nonce, expires: this.#now() + LIFE_MS }
    if (this.#isIn(device)) this.#open.set(device, [...this.#of(device), made].slice(-MOST_A_DEVICE))
    return made
  }

  /** Whether a nonce was given to this device and is still good; it is used up by asking, whatever the answer. */
  use(nonce: string, device: string): boolean {
    const open = this.#of(device)
    const left = open.filter((each) => each.nonce !== nonce)
    if (left.length === 0) this.#open.delete(device)
    else this.#open.set(device, left)
    return left.length < open.length
  }

  #of(device: string): readonly Challenge[] {
    return (this.#open.get(device) ?? []).filter(({ expires }) => expires > this.#now())
  }
}
