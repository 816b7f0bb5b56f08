import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ROOT } from './command.ts'

/** The app running on data of its own; `stop` ends it and removes the data. */
export type RunningApp = { readonly url: string; readonly dataFolder: string; readonly stop: () => Promise<void> }

const START_MS = 60_000
const POLL_MS = 100

/** Starts `rillmark start` on a free port and a temporary data folder and waits until it answers. */
export async function startApp(options: { readonly demo?: boolean } = {}): Promise<RunningApp> {
  const port = await freePort()
  const dataFolder = mkdtempSync(join(tmpdir(), 'rillmark-data-'))
  const url = `http://127.0.0.1:${port}`
  const args = [join(ROOT, 'packages/cli/bin/rillmark.js'), 'start', '--no-open', '--data', dataFolder]
  args.push('--port', String(port))
  if (options.demo === true) args.push('--demo')
  const child = spawn(process.execPath, args, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit'] })
  const stop = async () => {
    await endProcess(child)
    rmSync(dataFolder, { recursive: true, force: true })
  }
  try {
    await untilAnswering(url, child)
  } catch (error) {
    await stop()
    throw error
  }
  return { url, dataFolder, stop }
}

/** Fails early and clearly when the app has not been built. */
export function requireBuiltApp(): void {
  if (existsSync(join(ROOT, 'packages/web/dist/index.html'))) return
  throw new Error('Cannot open the app because it is not built: run "npm run build" first')
}

async function untilAnswering(url: string, child: ChildProcess): Promise<void> {
  const deadline = performance.now() + START_MS
  while (performance.now() < deadline) {
    if (child.exitCode !== null)
      throw new Error(`Cannot open the app: "rillmark start" ended with code ${child.exitCode}`)
    const answer = await fetch(url).catch(() => undefined)
    if (answer?.ok === true) return
    await new Promise((resolve) => setTimeout(resolve, POLL_MS))
  }
  throw new Error(`Cannot open the app: ${url} did not answer within ${START_MS / 1000} s`)
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject)
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address()
      probe.close(() =>
        typeof address === 'object' && address !== null ? resolve(address.port) : reject(new Error('no free port')),
      )
    })
  })
}

function endProcess(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) return resolve()
    const force = setTimeout(() => child.kill('SIGKILL'), 5_000)
    child.once('exit', () => {
      clearTimeout(force)
      resolve()
    })
    child.kill('SIGTERM')
  })
}
