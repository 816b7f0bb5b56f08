import { resolve } from 'node:path'
import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { serve, type Serving } from '@rillmark/server/api/serve.ts'
import { type Command, type CommandIo, exitCode, UnusableInput } from './command.ts'
import { doorLines } from './door-lines.ts'
import { reportProblems } from './problems.ts'
import { readStartOptions } from './start-options.ts'

const HELP = `Usage: rillmark start [--data FOLDER] [--port N] [--host ADDRESS] [--demo] [--no-open]
       rillmark start --behind-proxy ORIGIN [--plain-http] [--proxy ADDRESS,…] …

Serves the app and its API from a data folder, until it is stopped (Ctrl-C).

  --data  where records and attachments are kept; made when absent (./data)
  --port  the port to try first; when it is taken, the next free one (8710)
  --host  the address to answer at (127.0.0.1: this machine only, nobody has to
          come in). At any other (0.0.0.0: all of this machine) it speaks HTTPS
          with a certificate it makes, and only devices that were invited come
          in: docs/network.md.
  --demo  loads the worked example, an invented care home
  --no-open  leaves the browser alone. Else it is opened at the address where
          this is run at a terminal of a machine with a desktop.
  --invite-lead  invites a lead here, at the terminal, even where there is one
  --new-authority  makes a new authority for its certificate; every device has
                   to be told to trust it

Behind a proxy that does HTTPS:

  --behind-proxy  the address people type: https://cases.agency.example
  --plain-http    plain HTTP between the proxy and here
  --proxy         addresses or networks the proxy asks from (127.0.0.1,::1);
                  nothing else is answered

Ends with 0 when it was stopped, 2 when the options can't be used, 1 on an
internal failure.
`

export const startCommand: Command = {
  name: 'start',
  help: HELP,
  run: start,
}

async function start(args: string[], io: CommandIo): Promise<number> {
  const asked = readStartOptions(args)
  if (!asked.ok) return reportProblems(asked.issues, io)
  const { data, open, ...options } = asked.value
  const dataFolder = resolve(io.cwd, data)
  const log = (error: unknown): void => io.err(`${told(error)}\n`)
  const serving = await serve({ dataFolder, ...options, log }).catch((error: NodeJS.ErrnoException) =>
    refusedAddress(error, options),
  )
  await announce(serving, { io, port: options.port, dataFolder, demo: options.demo })
  if (open && io.terminal === true && io.open?.(serving.url) === true)
    io.out('Opening it in the browser (--no-open leaves that out).\n')
  io.out('Stop with Ctrl-C.\n')
  await stopped()
  await serving.close()
  io.out('Stopped. Everything acknowledged is on disk.\n')
  return exitCode.success
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

async function announce(
  serving: Serving,
  { io, port, dataFolder, demo }: { io: CommandIo; port: number; dataFolder: string; demo: boolean },
): Promise<void> {
  if (port !== 0 && serving.port !== port) io.err(`Port ${port} is taken; using ${serving.port}.\n`)
  io.out(`Rillmark is at ${serving.url}\nData: ${dataFolder}\n`)
  for (const line of await doorLines(serving, { terminal: io.terminal === true })) io.out(`${line}\n`)
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
