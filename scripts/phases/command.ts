import { spawn } from 'node:child_process'
import { delimiter, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** The installed tools come first, the pinned runtime among them. */
const SEARCH = [join(ROOT, 'node_modules/.bin'), process.env['PATH'] ?? ''].join(delimiter)

/** What one phase of the test command counted. */
export type Count = { readonly passed: number; readonly failed: number }

export type Command = {
  readonly run: string
  readonly args: readonly string[]
  readonly env?: Readonly<Record<string, string>>
}

/** Runs a command with its output going straight to the terminal; gives its exit code, 127 when it could not start. */
export function runCommand({ run, args, env }: Command): Promise<number> {
  return new Promise((resolve) => {
    const child = spawn(run, args, {
      cwd: ROOT,
      stdio: ['ignore', 'inherit', 'inherit'],
      env: { ...process.env, PATH: SEARCH, ...env },
    })
    child.on('error', (error) => {
      process.stdout.write(`Cannot run ${run}: ${error.message}\n`)
      resolve(127)
    })
    child.on('close', (code) => resolve(code ?? 1))
  })
}

/** A command that counts as one: passed when it exits 0. */
export async function countCommand(command: Command): Promise<Count> {
  return (await runCommand(command)) === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 }
}
