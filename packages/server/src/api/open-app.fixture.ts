import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import type { FastifyInstance, InjectOptions } from 'fastify'
import { type Data, openData } from '../data/open-data.ts'
import { buildApp } from './app.ts'

/** The app on a folder of its own, open to its own machine, and what failed inside it. */
export interface OpenApp {
  readonly folder: string
  readonly data: Data
  readonly app: FastifyInstance
  readonly failures: readonly unknown[]
  readonly ask: (request: InjectOptions) => ReturnType<typeof asked>
  readonly push: (entries: unknown[], id?: string) => ReturnType<typeof asked>
  // oxlint-disable-next-line typescript/no-explicit-any -- what comes back is held against what a test wants of it
  readonly pull: (query?: string) => Promise<any>
  readonly close: () => Promise<void>
}

export async function openApp(): Promise<OpenApp> {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-api-'))
  const data = openData(folder)
  const failures: unknown[] = []
  const log = (error: unknown): void => void failures.push(error)
  const app = await buildApp({ data, appFolder: join(folder, 'no-app'), loopbackOnly: true, log })
  const ask = (request: InjectOptions) => asked(app, request)
  return {
    folder,
    data,
    app,
    failures,
    ask,
    push: (entries, id = 'marram-house') =>
      ask({ method: 'POST', url: `/api/investigations/${id}/entries`, payload: { entries } }),
    pull: async (query = '') => (await ask({ url: `/api/investigations/marram-house/entries${query}` })).json(),
    close: async () => {
      await app.close()
      await data.ledger.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

const HOST = { host: 'localhost:8710' }

async function asked(app: FastifyInstance, request: InjectOptions) {
  const response = await app.inject({ ...request, headers: { ...HOST, ...request.headers } })
  return {
    status: response.statusCode,
    headers: response.headers,
    body: response.body,
    raw: response.rawPayload,
    json: () => response.json(),
  }
}

/** Somebody who writes in one investigation. */
export function writer() {
  const { make } = entryMaker('marram-house')
  return {
    make,
    opened: () =>
      make('investigation.opened', {
        title: 'Marram House',
        setting: 'hotel',
        openedOn: '2026-03-02',
        reason: 'two cases',
      }),
    note: (text: string) => make('note.written', { text, purpose: 'note' }),
  }
}
