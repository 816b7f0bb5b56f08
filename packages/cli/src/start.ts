import { resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { serve, type Serving } from '@rillmark/server/api/serve.ts'
import { type Command, type CommandIo, exitCode, UnusableInput } from './command.ts'
import { reportProblems } from './problems.ts'

const HELP = `Usage: rillmark start [--data FOLDER] [--port N] [--host ADDRESS] [--demo] [--no-open]

Serves the app and its API from a data folder, until it is stopped (Ctrl-C).

  --data  where records and attachments are kept; made when absent (./data)
  --port  the port to try first; when it is taken, the next free one (8710)
  --host  the address to answer at (127.0.0.1: this machine only). There are no
          accounts yet: whoever reaches another address can read and write.
  --demo  loads the worked example, an invented care home
  --no-open  leaves the browser alone. Else it is opened at the address where
          this is run at a terminal of a machine with a desktop.

Ends with 0 when it was stopped, 2 when the options can't be used, 1 on an
internal failure.
`

export const startCommand: Command = {
  name: 'start',
  help: HELP,
  run: start,
}

const HIGHEST_PORT = 65_535

async function start(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if (asked === undefined) {
    const expected = '--data FOLDER, --port N, --host ADDRESS, --demo or --no-open'
    return reportProblems([{ path: 'arguments', expected, received: args.join(' ') || 'nothing' }], io)
  }
  const port = /^\d{1,5}$/.test(asked.port) ? Number(asked.port) : Number.NaN
  if (!(port <= HIGHEST_PORT))
    return reportProblems(
      [{ path: '--port', expected: `a whole number from 0 to ${HIGHEST_PORT}`, received: asked.port }],
      io,
    )
  const dataFolder = resolve(io.cwd, asked.data)
  const log = (error: unknown): void => io.err(`${told(error)}\n`)
  const serving = await serve({ dataFolder, host: asked.host, port, demo: asked.demo, log }).catch(
    (error: NodeJS.ErrnoException) => refusedAddress(error, { host: asked.host, port }),
  )
  announce(serving, { io, port, dataFolder, demo: asked.demo })
  if (asked.open && io.terminal === true && io.open?.(serving.url) === true)
    io.out('Opening it in the browser (--no-open leaves that out).\n')
  io.out('Stop with Ctrl-C.\n')
  await stopped()
  await serving.close()
  io.out('Stopped. Everything acknowledged is on disk.\n')
  return exitCode.success
}

function readOptions(args: string[]) {
  try {
    const { values } = parseArgs({
      args,
      allowNegative: true,
      options: {
        data: { type: 'string', default: './data' },
        port: { type: 'string', default: '8710' },
        host: { type: 'string', default: '127.0.0.1' },
        demo: { type: 'boolean', default: false },
        open: { type: 'boolean', default: true },
      },
    })
    return values.data === '' || values.host === '' ? undefined : values
  } catch {
    return undefined
  }
}

const ADDRESS_TROUBLE: Readonly<Record<string, { path: string; expected: string; received: string }>> = {
  EADDRINUSE: { path: '--port', expected: 'a free port from here on', received: 'only taken ones' },
  EACCES: { path: '--port', expected: 'a port this user may take', received: 'one without permission' },
  EADDRNOTAVAIL: { path: '--host', expected: 'an address of this machine', received: 'another one' },
  ENOTFOUND: { path: '--host', expected: 'an address of this machine', received: 'a name nobody knows' },
  EAI_AGAIN: { path: '--host', expected: 'an address of this machine', received: 'a name nobody knows' },
  EINVAL: { path: '--host', expected: 'an address of this machine', received: 'one it can’t listen at' },
}

/** Why it can't listen there, as a problem of the options; any other failure is passed on. */
function refusedAddress(error: NodeJS.ErrnoException, asked: { host: string; port: number }): never {
  const told = error.syscall === undefined ? undefined : ADDRESS_TROUBLE[error.code ?? '']
  if (told === undefined) throw error
  const received = `${told.received} (${told.path === '--host' ? asked.host : asked.port})`
  throw new UnusableInput([statedIssue(told.path, { expected: told.expected, received })])
}

function announce(
  serving: Serving,
  { io, port, dataFolder, demo }: { io: CommandIo; port: number; dataFolder: string; demo: boolean },
): void {
  if (port !== 0 && serving.port !== port) io.err(`Port ${port} is taken; using ${serving.port}.\n`)
  io.out(`Rillmark is at ${serving.url}\nData: ${dataFolder}\n`)
  if (serving.demo !== undefined && 'id' in serving.demo)
    io.out(`Worked example: ${serving.url}/i/${serving.demo.id}/brief\n`)
  else if (serving.demo !== undefined)
    io.err(`The worked example is not loaded: an investigation of your own is called ${serving.demo.taken}.\n`)
  else if (demo) io.err('The worked example is not part of this installation.\n')
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
