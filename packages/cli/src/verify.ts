import { existsSync } from 'node:fs'
import { resolve } from 'node:path'
import { parseArgs } from 'node:util'
import type { Head } from '@rillmark/casebook/chain/link.ts'
import { type Verdict, verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { readPackage } from '@rillmark/exchange/package/read-package.ts'
import { ZIP_LIMITS } from '@rillmark/exchange/package/zip-directory.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { knownIds } from './export.ts'
import { readBytes } from './files.ts'
import { reportProblems } from './problems.ts'
import { withData } from './with-data.ts'

const HELP = `Usage: rillmark verify FILE.zip|ID [--head NUMBER:HASH] [--data FOLDER] [--json]

Walks the chain of a record, in a package or in the data folder, and names the
first broken link. With a head known from elsewhere (printed in a report) it
also notices a record that was cut short or rewritten whole.

  --head  the number of the last entry known and its hash
  --data  the data folder (./data)
  --json  the verdict as JSON

Ends with 0 when the record is sound, 2 when it is not or can't be read, 1 on
an internal failure.
`

export const verifyCommand: Command = {
  name: 'verify',
  help: HELP,
  run,
}

interface Asked {
  readonly what: string
  readonly head: Head | undefined
  readonly data: string
  readonly json: boolean
}

async function run(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if (asked === undefined)
    return reportProblems(
      [
        {
          path: 'arguments',
          expected: 'FILE.zip or ID, and --head NUMBER:HASH',
          received: args.join(' ') || 'nothing',
        },
      ],
      io,
    )
  const path = resolve(io.cwd, asked.what)
  return existsSync(path) ? verifyFile(asked, io) : verifyStored(asked, io)
}

async function verifyFile(asked: Asked, io: CommandIo): Promise<number> {
  const file = await readBytes({ file: asked.what, largestBytes: ZIP_LIMITS.archiveBytes }, io)
  if ('issues' in file) return reportProblems(file.issues, io)
  const read = readPackage(file.bytes)
  if (!read.ok) return reportProblems(read.issues, io)
  const { links, manifest } = read.value
  return tell(verifyChain(links, { investigation: manifest.investigation, head: asked.head }), { asked, io })
}

async function verifyStored(asked: Asked, io: CommandIo): Promise<number> {
  return withData({ folder: asked.data, io }, async (data) => {
    const links = await data.records.links(asked.what)
    if (links.length === 0)
      return reportProblems(
        [{ path: 'FILE or ID', expected: `a file, or ${await knownIds(data)}`, received: asked.what }],
        io,
      )
    return tell(verifyChain(links, { investigation: asked.what, head: asked.head }), { asked, io })
  })
}

function tell(verdict: Verdict, { asked, io }: { asked: Asked; io: CommandIo }): number {
  if (asked.json) io.out(`${JSON.stringify(verdict, null, 2)}\n`)
  if (!verdict.sound) {
    io.err(`entry ${verdict.sequence}: expected an unbroken chain, received a broken link: ${verdict.reason}\n`)
    return exitCode.unusableInput
  }
  if (!asked.json)
    io.out(`Sound: ${verdict.head.sequence} entries, head ${verdict.head.sequence}:${verdict.head.hash}\n`)
  return exitCode.success
}

function readOptions(args: string[]): Asked | undefined {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        head: { type: 'string' },
        data: { type: 'string', default: './data' },
        json: { type: 'boolean', default: false },
      },
    })
    const [what, second] = positionals
    const head = readHead(values.head)
    if (what === undefined || second !== undefined || head === 'bad') return undefined
    return { what, head, data: values.data, json: values.json }
  } catch {
    return undefined
  }
}

function readHead(text: string | undefined): Head | undefined | 'bad' {
  if (text === undefined) return undefined
  const [, sequence, hash] = /^(\d{1,9}):([0-9a-f]{64})$/.exec(text) ?? []
  return sequence === undefined || hash === undefined ? 'bad' : { sequence: Number(sequence), hash }
}
