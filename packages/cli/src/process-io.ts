import { once } from 'node:events'
import { buffer } from 'node:stream/consumers'
import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { type CommandIo, UnusableInput } from './command.ts'
import { NOT_UTF8, utf8 } from './files.ts'
import { linesOf } from './lines.ts'
import { openBrowser } from './open-browser.ts'

/** The running process as a command sees it. */
export function processIo(): CommandIo {
  // A reader that closes the pipe early (`rillmark … | head`) isn't a failure.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error
    process.exit(0)
  })
  return {
    stdin,
    stdinLines: () => linesOf(process.stdin),
    out: (chunk) => process.stdout.write(chunk),
    err: (chunk) => process.stderr.write(chunk),
    drained: async () => {
      for (const stream of [process.stdout, process.stderr]) if (stream.writableNeedDrain) await once(stream, 'drain')
    },
    cwd: process.cwd(),
    terminal: process.stdout.isTTY,
    open: openBrowser,
    watched: process.stderr.isTTY,
  }
}

async function stdin(): Promise<string> {
  const bytes = await buffer(process.stdin).catch((error: NodeJS.ErrnoException) => {
    const received = error.code === 'EISDIR' ? 'a folder' : (error.code ?? 'nothing')
    throw new UnusableInput([statedIssue('standard input', { expected: 'something that can be read', received })])
  })
  const text = utf8(bytes)
  if (text === undefined) throw new UnusableInput([NOT_UTF8])
  return text
}
