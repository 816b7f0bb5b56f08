import { resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { serve, type Serving } from '@rillmark/server/api/serve.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { reportProblems } from './problems.ts'

const HELP = `Usage: rillmark start [--data FOLDER] [--port N] [--host ADDRESS] [--demo]

Serves the app and its API from a data folder, until it is stopped (Ctrl-C).

  --data  where records and attachments are kept; made when absent (./data)
  --port  the port to try first; when it is taken, the next free one (8710)
  --host  the address to answer at (127.0.0.1: this machine only). There are no
          accounts yet: whoever reaches another address can read and write.
  --demo  loads the worked example, an invented care home

Ends with 0 when it was stopped, 2 when the options can't be used, 1 on an
internal failure.
`

export const startCommand: Command = {
  name: 'start',
  summary: 'serves the app and its API from a data folder',
  help: HELP,
  run: start,
}

const HIGHEST_PORT = 65_535

async function start(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if (asked === undefined) {
    const expected = '--data FOLDER, --port N, --host ADDRESS or --demo'
    return reportProblems([{ path: 'arguments', expected, received: args.join(' ') || 'nothing' }], io)
  }
  const port = Number(asked.port)
  if (!Number.isInteger(port) || port < 0 || port > HIGHEST_PORT)
    return reportProblems(
      [{ path: '--port', expected: `a whole number from 0 to ${HIGHEST_PORT}`, received: asked.port }],
      io,
    )
  const dataFolder = resolve(io.cwd, asked.data)
  const serving = await serve({
    dataFolder,
    host: asked.host,
    port,
    demo: asked.demo,
    log: (error) => io.err(`${told(error)}\n`),
  })
  announce(serving, { io, port, dataFolder, demo: asked.demo })
  await stopped()
  await serving.close()
  io.out('Stopped. Everything acknowledged is on disk.\n')
  return exitCode.success
}

function readOptions(args: string[]) {
  try {
    return parseArgs({
      args,
      options: {
        data: { type: 'string', default: './data' },
        port: { type: 'string', default: '8710' },
        host: { type: 'string', default: '127.0.0.1' },
        demo: { type: 'boolean', default: false },
      },
    }).values
  } catch {
    return undefined
  }
}

function announce(
  serving: Serving,
  { io, port, dataFolder, demo }: { io: CommandIo; port: number; dataFolder: string; demo: boolean },
): void {
  if (port !== 0 && serving.port !== port) io.err(`Port ${port} is taken; using ${serving.port}.\n`)
  io.out(`Rillmark is at ${serving.url}\nData: ${dataFolder}\n`)
  if (serving.demo !== undefined) io.out(`Worked example: ${serving.url}/i/${serving.demo}/brief\n`)
  else if (demo) io.err('The worked example is not part of this installation.\n')
  io.out('Stop with Ctrl-C.\n')
}

function stopped(): Promise<void> {
  return new Promise((done) => {
    process.once('SIGINT', () => done())
    process.once('SIGTERM', () => done())
  })
}

function told(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error)
}
