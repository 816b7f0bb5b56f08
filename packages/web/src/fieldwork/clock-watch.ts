/** What the device's clock and the browser's own count of time show at one moment, in milliseconds. */
export interface ClockReading {
  readonly wallMs: number
  /** goes on whatever the clock is set to; in a sleeping device it may stand still */
  readonly countMs: number
}

/** The two drift apart by less than this between two looks; our own choice, no source. */
const SET_FROM_MS = 2000

/**
 * Notices that the clock of the device was set, as it is when a network comes back, by a count of time that does not follow it. A clock that
 * is further on than the count may be one that went on while the device slept: it is believed where the page was hidden meanwhile.
 */
export class ClockWatch {
  readonly #read: () => ClockReading
  #last: ClockReading
  #hidden = false

  constructor(read: () => ClockReading) {
    this.#read = read
    this.#last = read()
  }

  /** The page is seen or not from now on; while it is not, the device may sleep. Gives what `look` does, of the time before. */
  see(seen: boolean): number {
    const byMs = this.look()
    this.#hidden = !seen
    return byMs
  }

  /** By how much the clock was set since the last look: forward is positive, 0 where it was not. */
  look(): number {
    const now = this.#read()
    const parted = now.wallMs - this.#last.wallMs - (now.countMs - this.#last.countMs)
    const slept = this.#hidden && parted > 0
    this.#last = now
    return slept || Math.abs(parted) <= SET_FROM_MS ? 0 : Math.round(parted)
  }
}
