import { type ChildProcess, spawn } from 'node:child_process'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'

export interface OwnApp {
  readonly url: string
  /** for the first lead of a server that lets in only devices that have joined */
  readonly invitation?: string
  /** the copy of the built app it serves */
  readonly appFolder: string
  readonly dataFolder: string
  /** as if the machine were out of reach */
  readonly stop: () => Promise<void>
  /** at the same address again, with the same data; nothing while it runs */
  readonly start: () => Promise<void>
  /** ends it for good */
  readonly remove: () => Promise<void>
}

const BUILT = join(import.meta.dirname, '../../../packages/web/dist')
const SERVE = join(import.meta.dirname, 'serve-own.ts')

/** A server for one test, with the worked example, which can be stopped, started again, and given another version of the app. */
export async function startOwnApp({ closed = false }: { readonly closed?: boolean } = {}): Promise<OwnApp> {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-own-'))
  const [dataFolder, appFolder] = [join(folder, 'data'), join(folder, 'app')]
  cpSync(BUILT, appFolder, { recursive: true })
  let child: ChildProcess | undefined
  const run = async (port: string): Promise<{ url: string; invitation?: string }> => {
    const args = [SERVE, closed ? 'closed' : 'open', dataFolder, appFolder, port]
    child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit'] })
    return JSON.parse(await firstLine(child)) as { url: string; invitation?: string }
  }
  const started = await run('0')
  const stop = async (): Promise<void> => {
    await ended(child)
    child = undefined
  }
  return {
    ...started,
    appFolder,
    dataFolder,
    stop,
    start: async () => {
      if (child === undefined) await run(new URL(started.url).port)
    },
    remove: async () => {
      await stop()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

function firstLine(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    child.once('exit', (code) => reject(new Error(`Cannot serve the app: it ended with code ${code}`)))
    if (child.stdout !== null) createInterface(child.stdout).once('line', resolve)
  })
}

function ended(child: ChildProcess | undefined): Promise<void> {
  return new Promise((resolve) => {
    if (child === undefined || child.exitCode !== null || child.signalCode !== null) return resolve()
    child.once('exit', () => resolve())
    child.kill('SIGTERM')
  })
}
