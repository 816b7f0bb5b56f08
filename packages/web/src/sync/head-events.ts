/** How a stream that was refused is asked for again. */
export interface EventTimers {
  readonly later: (run: () => void, ms: number) => () => void
}

const FIRST_RETRY_MS = 1000
const LONGEST_RETRY_MS = 60_000

const browserTimers: EventTimers = {
  later: (run, ms) => {
    const timer = setTimeout(run, ms)
    return () => clearTimeout(timer)
  },
}

/**
 * Calls back when the server has a new head, for as long as the page is seen. A browser keeps only a handful of connections to one host:
 * a hidden page gives its own up, so that many open tabs do not starve each other, and asks again when it is seen. A connection that is lost
 * the browser opens again; one that is answered with a refusal (a session that ended) it gives up for good: then an exchange is nudged,
 * which proves anew who this device is, and the stream is asked for again, later each time. Returns how to stop.
 */
export function onNewHead(
  address: string,
  { nudge, timers = browserTimers }: { readonly nudge: () => Promise<unknown>; readonly timers?: EventTimers },
): () => void {
  if (typeof EventSource === 'undefined') return () => undefined
  const stream = new HeadStream({ address, nudge, timers })
  const page = globalThis.document as Document | undefined
  const tune = (): void => {
    if (page?.visibilityState === 'hidden') stream.close()
    else if (!stream.wanted) stream.open()
  }
  page?.addEventListener('visibilitychange', tune)
  tune()
  return () => {
    page?.removeEventListener('visibilitychange', tune)
    stream.close()
  }
}

class HeadStream {
  readonly #given: { readonly address: string; readonly nudge: () => Promise<unknown>; readonly timers: EventTimers }
  #events: EventSource | undefined
  #refusals = 0
  #cancel: () => void = () => undefined
  wanted = false

  constructor(given: { address: string; nudge: () => Promise<unknown>; timers: EventTimers }) {
    this.#given = given
  }

  open(): void {
    this.wanted = true
    this.#listen()
    void this.#given.nudge()
  }

  close(): void {
    this.wanted = false
    this.#cancel()
    this.#events?.close()
    this.#events = undefined
  }

  #listen(): void {
    const events = new EventSource(this.#given.address)
    this.#events = events
    events.addEventListener('head', () => void this.#given.nudge())
    events.addEventListener('open', () => {
      this.#refusals = 0
    })
    events.addEventListener('error', () => {
      if (events.readyState === CLOSED && events === this.#events) this.#askAgain()
    })
  }

  #askAgain(): void {
    this.#events = undefined
    const pause = Math.min(FIRST_RETRY_MS * 2 ** this.#refusals, LONGEST_RETRY_MS)
    this.#refusals += 1
    this.#cancel = this.#given.timers.later(() => {
      const listen = (): void => {
        if (this.wanted && this.#events === undefined) this.#listen()
      }
      this.#given.nudge().then(listen, listen)
    }, pause)
  }
}

/** `EventSource.CLOSED` (HTML standard). */
const CLOSED = 2
