/** A request, and how it is waited for. */
export interface Asking extends RequestInit {
  /** How long the server may take before it begins to answer (ms); what is sent has time of its own to go out. */
  readonly patienceMs?: number
  /** Whoever asks will ask again, and a request that arrives twice does no harm: it may be dropped when the network comes back. */
  readonly again?: boolean
}

const ANSWER_MS = 60_000
/** For what takes the server long: a paper, a package read in, the worked example. */
export const LONG_MS = 300_000
/** An answer may take as long as it likes, as long as something of it comes. */
const STALL_MS = 60_000
/** Assumed, on the slow side, so that nothing that is still going out is given up. */
const SLOWEST_BYTES_PER_S = 2000

const waits = new Set<Wait>()

/** `fetch`, given up where the server is silent for too long: a request into a network that died would hold up all that come after it. */
export async function fetchPatiently(path: string, asking: Asking = {}): Promise<Response> {
  const { patienceMs = ANSWER_MS, again = false, ...init } = asking
  const wait = new Wait(again)
  wait.atMost(patienceMs + (sizeOf(init.body) / SLOWEST_BYTES_PER_S) * 1000)
  try {
    const response = await fetch(path, { ...init, signal: wait.signal })
    return response.body === null ? wait.over(response) : followed(response, { body: response.body, wait })
  } catch (error) {
    wait.over(undefined)
    throw error
  }
}

/** The network is back: what was asked before, of a connection that may be dead, is given up if it will be asked again. */
export function dropUnanswered(): void {
  for (const wait of waits) if (wait.again) wait.giveUp('asked before the network came back')
}

class Wait {
  readonly again: boolean
  readonly #abort = new AbortController()
  #timer: ReturnType<typeof setTimeout> | undefined

  constructor(again: boolean) {
    this.again = again
    waits.add(this)
  }

  get signal(): AbortSignal {
    return this.#abort.signal
  }

  atMost(ms: number): void {
    clearTimeout(this.#timer)
    this.#timer = setTimeout(() => this.giveUp(`the server was silent for ${Math.round(ms / 1000)} s`), ms)
  }

  giveUp(reason: string): void {
    this.over(undefined)
    this.#abort.abort(new DOMException(reason, 'TimeoutError'))
  }

  over<T>(outcome: T): T {
    clearTimeout(this.#timer)
    waits.delete(this)
    return outcome
  }
}

function followed(
  { status, statusText, headers }: Response,
  { body, wait }: { body: ReadableStream<Uint8Array<ArrayBuffer>>; wait: Wait },
): Response {
  wait.atMost(STALL_MS)
  const watched = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>({
    transform: (piece, out) => {
      wait.atMost(STALL_MS)
      out.enqueue(piece)
    },
    flush: () => wait.over(undefined),
  })
  return new Response(body.pipeThrough(watched), { status, statusText, headers })
}

function sizeOf(body: BodyInit | null | undefined): number {
  if (typeof body === 'string') return body.length
  if (body instanceof Blob) return body.size
  return body instanceof ArrayBuffer || ArrayBuffer.isView(body) ? body.byteLength : 0
}
