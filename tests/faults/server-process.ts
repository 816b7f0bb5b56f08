import { type ChildProcess, spawn } from 'node:child_process'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'

const COMMAND = fileURLToPath(new URL('../../packages/cli/bin/rillmark.js', import.meta.url))
const START_MS = 90_000

/** Compiled code is kept between starts: hundreds of them would spend most of their time on compiling. */
const COMPILED = join(tmpdir(), 'rillmark-compiled')

/** `rillmark start` as a process of its own. */
export interface ServerProcess {
  readonly url: string
  readonly pid: number
  /** ends it at once, with no chance to write anything more; resolves when it is gone */
  readonly kill: () => Promise<void>
  /** what it said to its log */
  readonly troubles: () => string
}

interface Start {
  readonly dataFolder: string
  /** killed so soon, started or not */
  readonly killAfterMs?: number
}

/** Starts the server over a data folder, at a free port, and resolves when it says where it is. */
export async function startServer({ dataFolder, killAfterMs }: Start): Promise<ServerProcess> {
  const args = [COMMAND, 'start', '--no-open', '--data', dataFolder, '--port', '0']
  const child = spawn(process.execPath, args, {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NODE_COMPILE_CACHE: COMPILED },
  })
  const orphaned = (): boolean => child.kill('SIGKILL')
  process.once('exit', orphaned)
  child.once('close', () => process.off('exit', orphaned))
  if (killAfterMs !== undefined) setTimeout(() => child.kill('SIGKILL'), killAfterMs)
  let troubles = ''
  child.stderr.on('data', (data) => (troubles += String(data)))
  const url = await new Promise<string>((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(`the server did not start in ${START_MS / 1000} s`)), START_MS)
    createInterface({ input: child.stdout }).on('line', (line) => {
      const found = /^Rillmark is at (\S+)/.exec(line)?.[1]
      if (found !== undefined) resolve(found)
    })
    child.once('close', (code) => reject(new Error(`the server ended with ${code}: ${troubles}`)))
    child.once('error', reject)
    child.once('close', () => clearTimeout(late))
  })
  return { url, pid: child.pid ?? 0, kill: () => killed(child), troubles: () => troubles }
}

function killed(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) return resolve()
    child.once('close', () => resolve())
    child.kill('SIGKILL')
  })
}
