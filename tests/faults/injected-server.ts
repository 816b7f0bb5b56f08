import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Head, Link } from '@rillmark/casebook/chain/link.ts'
import { MemoryLedger } from '@rillmark/casebook/ledger/memory-ledger.ts'
import { buildApp } from '@rillmark/server/api/app.ts'
import { type Data, openData } from '@rillmark/server/data/open-data.ts'
import type { Pushed } from '../../packages/web/src/sync/server-port.ts'

type App = Awaited<ReturnType<typeof buildApp>>

/** The server's own code over a folder of its own, asked without a network; `reopen` is what a restart is. */
export class InjectedServer {
  readonly #folder = mkdtempSync(join(tmpdir(), 'rillmark-injected-'))
  readonly failures: unknown[] = []
  #data: Data | undefined
  #app: App | undefined

  async reopen(): Promise<void> {
    await this.#end()
    const data = openData(this.#folder)
    const log = (error: unknown): void => void this.failures.push(error)
    this.#data = data
    this.#app = await buildApp({ data, appFolder: join(this.#folder, 'no-app'), loopbackOnly: true, log })
  }

  async close(): Promise<void> {
    await this.#end()
    rmSync(this.#folder, { recursive: true, force: true })
  }

  async push(
    investigation: string,
    body: { entries: readonly unknown[]; deviceNow?: string; latest?: string },
  ): Promise<Pushed> {
    return this.#ask<Pushed>({
      method: 'POST',
      url: `/api/investigations/${investigation}/entries`,
      payload: { ...body },
    })
  }

  async pull(investigation: string, after: number): Promise<{ links: readonly Link[]; head: Head }> {
    return this.#ask({ method: 'GET', url: `/api/investigations/${investigation}/entries?after=${after}&limit=40` })
  }

  /** Its whole record, read through the door everybody uses. */
  async record(investigation: string): Promise<MemoryLedger> {
    const ledger = new MemoryLedger()
    for (;;) {
      const held = await ledger.head(investigation)
      const { links, head } = await this.pull(investigation, held.sequence)
      await ledger.commit(links)
      if (held.sequence + links.length >= head.sequence) return ledger
    }
  }

  async #ask<T>(request: { method: 'GET' | 'POST'; url: string; payload?: object }): Promise<T> {
    if (this.#app === undefined) throw new Error('the server is not open')
    const response = await this.#app.inject({ ...request, headers: { host: 'localhost:8710' } })
    if (response.statusCode !== 200) throw new Error(`${request.url}: ${response.statusCode} ${response.body}`)
    return response.json<T>()
  }

  async #end(): Promise<void> {
    await this.#app?.close()
    await this.#data?.ledger.close()
  }
}
