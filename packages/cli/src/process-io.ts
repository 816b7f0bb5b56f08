import { createInterface } from 'node:readline'
import { text } from 'node:stream/consumers'
import type { CommandIo } from './command.ts'

/** The running process as a command sees it. */
export function processIo(): CommandIo {
  // A reader that closes the pipe early (`rillmark … | head`) isn't a failure.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error
    process.exit(0)
  })
  return {
    stdin: () => text(process.stdin),
    stdinLines: () => createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY }),
    out: (chunk) => process.stdout.write(chunk),
    err: (chunk) => process.stderr.write(chunk),
    cwd: process.cwd(),
  }
}
