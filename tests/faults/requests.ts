import type { Head, Link } from '@rillmark/casebook/chain/link.ts'
import { type Pushed, type ServerPort, Unreachable } from '../../packages/web/src/sync/server-port.ts'

const OCTETS = { 'content-type': 'application/octet-stream' }
const JSON_TYPE = { 'content-type': 'application/json' }

/** A server reached over real HTTP, at whatever address it has now. Counts what is not answered yet. */
export class Requests implements ServerPort {
  readonly #url: () => string
  /** writes that were sent and not answered */
  writing = 0

  constructor(url: () => string) {
    this.#url = url
  }

  readonly push: ServerPort['push'] = (investigation, entries) =>
    this.#written(`/api/investigations/${investigation}/entries`, {
      method: 'POST',
      headers: JSON_TYPE,
      body: JSON.stringify({ entries }),
    }) as Promise<Pushed>

  readonly pull = (investigation: string, after: number): Promise<{ links: readonly Link[]; head: Head }> =>
    this.#json(`/api/investigations/${investigation}/entries?after=${after}`) as Promise<{
      links: readonly Link[]
      head: Head
    }>

  received(sha256: string): Promise<{ received: number; whole: boolean }> {
    return this.#json(`/api/attachments/${sha256}/pieces`) as Promise<{ received: number; whole: boolean }>
  }

  /** One piece; where another one is due, how much is there. */
  putPiece(
    sha256: string,
    { from, of, bytes }: { from: number; of: number; bytes: Uint8Array<ArrayBuffer> },
  ): Promise<{ received: number; whole: boolean }> {
    const init = { method: 'PUT', headers: OCTETS, body: bytes }
    return this.#written(`/api/attachments/${sha256}/pieces?from=${from}&of=${of}`, init) as Promise<{
      received: number
      whole: boolean
    }>
  }

  async attachment(sha256: string): Promise<Uint8Array> {
    const response = await this.#answer(`/api/attachments/${sha256}`)
    return new Uint8Array(await response.arrayBuffer().catch(lost))
  }

  async #written(path: string, init: RequestInit): Promise<unknown> {
    this.writing += 1
    try {
      return await this.#json(path, init)
    } finally {
      this.writing -= 1
    }
  }

  async #json(path: string, init?: RequestInit): Promise<unknown> {
    const response = await this.#answer(path, init)
    return response.json().catch(lost)
  }

  async #answer(path: string, init?: RequestInit): Promise<Response> {
    const response = await fetch(`${this.#url()}${path}`, init).catch(lost)
    // as the app takes it: later
    if (response.status >= 500 || response.status === 429) throw new Unreachable(`answered ${response.status}`)
    const outOfPlace = response.status === 409
    if (!response.ok && !outOfPlace)
      throw new Error(`${path} was answered ${response.status}: ${await response.text()}`)
    return response
  }
}

function lost(error: unknown): never {
  throw new Unreachable(String(error))
}
