import type { Exchange } from './sync-engine.ts'

export interface LoopTimers {
  readonly later: (run: () => void, ms: number) => () => void
}

const FIRST_RETRY_MS = 1000
const LONGEST_RETRY_MS = 60_000
const POLL_MS = 30_000

const browserTimers: LoopTimers = {
  later: (run, ms) => {
    const timer = setTimeout(run, ms)
    return () => clearTimeout(timer)
  },
}

/** Exchanges when nudged and now and then; after a failure it waits twice as long each time. Never two exchanges at once. */
export class SyncLoop {
  readonly #exchange: () => Promise<Exchange>
  readonly #timers: LoopTimers
  #cancel: () => void = () => undefined
  #running: Promise<void> | undefined
  #again = false
  /** a restart came while an exchange was under way */
  #anew = false
  #failures = 0
  #stopped = false

  constructor(exchange: () => Promise<Exchange>, timers: LoopTimers = browserTimers) {
    this.#exchange = exchange
    this.#timers = timers
  }

  /** Exchange soon; during an exchange, once more after it. */
  nudge(): Promise<void> {
    if (this.#stopped) return Promise.resolve()
    if (this.#running !== undefined) {
      this.#again = true
      return this.#running
    }
    this.#cancel()
    this.#running = this.#run().finally(() => {
      this.#running = undefined
      if (!this.#stopped) this.#cancel = this.#timers.later(() => void this.nudge(), this.#pause())
    })
    return this.#running
  }

  /** The network is back: exchange at once, whatever failed before; one under way that fails now is followed by another. */
  restart(): Promise<void> {
    this.#failures = 0
    this.#anew = this.#running !== undefined
    return this.nudge()
  }

  stop(): void {
    this.#stopped = true
    this.#cancel()
  }

  async #run(): Promise<void> {
    do {
      this.#again = false
      const outcome = await this.#exchange().catch(
        (error: unknown): Exchange => ({ kind: 'unreachable', reason: String(error) }),
      )
      this.#failures = outcome.kind === 'done' ? 0 : this.#failures + 1
      const anew = this.#anew
      this.#anew = false
      if (outcome.kind !== 'done' && !anew) return
    } while (this.#again && !this.#stopped)
  }

  #pause(): number {
    if (this.#failures === 0) return POLL_MS
    return Math.min(FIRST_RETRY_MS * 2 ** (this.#failures - 1), LONGEST_RETRY_MS)
  }
}
