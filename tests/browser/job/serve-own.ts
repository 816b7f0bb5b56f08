// Serves one test's own data and its own copy of the built app, as a process of its own (started by own-app.ts).
import { loadDemo } from '@rillmark/server/records/demo.ts'
import { buildApp } from '@rillmark/server/api/app.ts'
import { serve } from '@rillmark/server/api/serve.ts'
import { openSoundData } from '@rillmark/server/data/open-data.ts'

const [kind, dataFolder = '', appFolder = '', port = '0'] = process.argv.slice(2)
const log = (error: unknown): void => void process.stderr.write(`${String(error)}\n`)

/** For whoever sits at this machine, from a copy of the app that a test may change. */
async function serveOpen() {
  const data = openSoundData(dataFolder)
  const app = await buildApp({ data, appFolder, loopbackOnly: true, log })
  await loadDemo(data.records)
  return { url: await app.listen({ host: '127.0.0.1', port: Number(port) }), close: () => app.close() }
}

/** As for a network: 127.0.0.2 is this machine, and yet none of the names at which nobody has to join. */
async function serveClosed() {
  const { url, invitation, close } = await serve({
    dataFolder,
    host: '127.0.0.2',
    port: Number(port),
    demo: true,
    log,
  })
  return { url, invitation: invitation?.url, close }
}

const { close, ...started } = kind === 'closed' ? await serveClosed() : await serveOpen()
process.stdout.write(`${JSON.stringify(started)}\n`)
process.once('SIGTERM', () => void close().then(() => process.exit(0)))
