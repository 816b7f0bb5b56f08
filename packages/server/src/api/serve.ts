import { fileURLToPath } from 'node:url'
import { openSoundData } from '../folder/open-data.ts'
import { loadDemo } from '../records/demo.ts'
import { buildApp } from './app.ts'

export interface ServeOptions {
  readonly dataFolder: string
  readonly host: string
  /** tried first; when it is taken, the next free one */
  readonly port: number
  readonly demo: boolean
  readonly log: (error: unknown) => void
}

export interface Serving {
  readonly url: string
  readonly port: number
  /** the worked example, when it was asked for and is there; or whose name is taken by another investigation */
  readonly demo: { readonly id: string } | { readonly taken: string } | undefined
  readonly close: () => Promise<void>
}

const APP_FOLDER = fileURLToPath(new URL('../../../web/dist', import.meta.url))
const LOOPBACK = new Set(['127.0.0.1', 'localhost', '::1'])
const PORTS_TRIED = 50

/** Serves a data folder until it is closed. */
export async function serve({ dataFolder, host, port, demo, log }: ServeOptions): Promise<Serving> {
  const data = openSoundData(dataFolder)
  const app = await buildApp({ data, appFolder: APP_FOLDER, loopbackOnly: LOOPBACK.has(host), log })
  try {
    const loaded = demo ? await loadDemo(data.records) : undefined
    const taken = await listen(app, { host, port })
    const close = async () => {
      await app.close()
      await data.ledger.close()
    }
    return { url: `http://${host.includes(':') ? `[${host}]` : host}:${taken}`, port: taken, demo: loaded, close }
  } catch (error) {
    await app.close()
    await data.ledger.close()
    throw error
  }
}

type App = Awaited<ReturnType<typeof buildApp>>

async function listen(app: App, { host, port }: { host: string; port: number }): Promise<number> {
  for (let tried = port; ; tried += 1) {
    try {
      await app.listen({ host, port: tried })
      const address = app.server.address()
      return typeof address === 'object' && address !== null ? address.port : tried
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      if (code !== 'EADDRINUSE' || tried >= port + PORTS_TRIED || tried >= 65_535) throw error
    }
  }
}
