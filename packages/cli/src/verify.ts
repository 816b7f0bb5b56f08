import { existsSync } from 'node:fs'
import { basename, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { Verdict as ChainVerdict } from '@rillmark/casebook/chain/verify.ts'
import { ZIP_LIMITS } from '@rillmark/exchange/package/zip-directory.ts'
import { type Finding, LAYERS } from '@rillmark/exchange/verify/verdict.ts'
import { verdictWords } from '@rillmark/exchange/verify/verdict-words.ts'
import { type GivenFile, type NamedVerdict, verifyFiles } from '@rillmark/exchange/verify/verify-files.ts'
import { verifyRecordKept } from '@rillmark/exchange/verify/verify-record.ts'
import { webCryptoCheck } from '@rillmark/exchange/verify/web-crypto-check.ts'
import { unsignedWords } from '@rillmark/casebook/record/unsigned-words.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { type Issue, issueLine } from '@rillmark/science/catalogue/issue.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { knownIds } from './export.ts'
import { readBytes } from './files.ts'
import { reportProblems } from './problems.ts'
import { readEarlier } from './receipt.ts'
import { withData } from './with-data.ts'

const HELP = `Usage: rillmark verify FILE... | ID [RECEIPT.json...] [--head NUMBER:HASH] [--data FOLDER] [--json]

Checks packages and receipts, or a record in the data folder, and names
everything that does not hold, each with its entry or file: archive, hashes,
chain, signatures, devices, pictures, tables, reports, tree. Receipts are held
against the package or record beside them, and against one another.

  --head  the number of the last entry known and its hash, from a printed report
  --data  the data folder (./data)
  --json  the verdict as JSON

Ends with 0 when all is sound, 2 when it is not or can't be read, 1 on an
internal failure.
`

export const verifyCommand: Command = {
  name: 'verify',
  help: HELP,
  run,
}

interface Asked {
  readonly first: string
  readonly more: readonly string[]
  readonly head: Head | undefined
  readonly data: string
  readonly json: boolean
}

async function run(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if (asked === undefined) {
    const expected = 'files, or ID with receipts, and --head NUMBER:HASH'
    return reportProblems([{ path: 'arguments', expected, received: args.join(' ') || 'nothing' }], io)
  }
  return existsSync(resolve(io.cwd, asked.first)) ? verifyGiven(asked, io) : verifyStored(asked, io)
}

async function verifyGiven({ first, more, head, json }: Asked, io: CommandIo): Promise<number> {
  const files: GivenFile[] = []
  for (const file of [first, ...more]) {
    const read = await readBytes({ file, largestBytes: ZIP_LIMITS.archiveBytes }, io)
    if ('issues' in read) return reportProblems(read.issues, io)
    files.push({ name: basename(file), bytes: read.bytes })
  }
  const verdicts = await verifyFiles(files, { head, checkSignature: webCryptoCheck() })
  if (json) io.out(`${JSON.stringify(asJson(verdicts), null, 2)}\n`)
  for (const { name, verdict } of verdicts) {
    const several = verdicts.length > 1 ? `${name}: ` : ''
    for (const finding of verdict.findings) io.err(`${several}${findingLine(finding)}\n`)
    if (!json && verdict.sound) io.out(told({ name, verdict }, several))
  }
  return verdicts.every(({ verdict }) => verdict.sound) ? exitCode.success : exitCode.unusableInput
}

function told({ verdict }: NamedVerdict, several: string): string {
  const { headline, facts, holds } = verdictWords(verdict)
  const width = Math.max(...facts.map(([name]) => name.length))
  return [
    `${several}${headline}`,
    ...facts.map(([name, value]) => `  ${name.padEnd(width)}  ${value}`),
    `  Holds: ${holds}`,
    ...verdict.cautions.map((caution) => `  Note: ${caution}`),
    '',
  ].join('\n')
}

function findingLine({ layer, ...finding }: Finding): string {
  return `${LAYERS[layer]}: ${issueLine(finding)}`
}

/** One file's verdict at the top, several under `files`. */
function asJson(verdicts: readonly NamedVerdict[]): object {
  const sound = verdicts.every(({ verdict }) => verdict.sound)
  const files = verdicts.map(({ name, verdict }) => ({ name, ...verdict }))
  return files.length === 1 ? { sound, ...files[0] } : { sound, files }
}

async function verifyStored(asked: Asked, io: CommandIo): Promise<number> {
  const receipts: Receipt[] = []
  for (const file of asked.more) {
    const read = await readEarlier(file, io)
    if ('issues' in read) return reportProblems(read.issues, io)
    if (read.receipt !== undefined) receipts.push(read.receipt)
  }
  return withData({ folder: asked.data, io }, async (data) => {
    const links = await data.records.links(asked.first)
    if (links.length === 0) {
      const expected = `a file, or ${await knownIds(data)}`
      return reportProblems([{ path: 'FILE or ID', expected, received: asked.first }], io)
    }
    const options = { head: asked.head, receipts, checkSignature: webCryptoCheck() }
    const { chain, findings } = await verifyRecordKept(links, { investigation: asked.first, options })
    const unsigned = unsignedWords(links.map(({ entry }) => entry))
    return tellStored({ chain, findings, unsigned }, { json: asked.json, io })
  })
}

function tellStored(
  { chain, findings, unsigned }: { chain: ChainVerdict; findings: readonly Finding[]; unsigned: string | undefined },
  { json, io }: { json: boolean; io: CommandIo },
): number {
  const sound = chain.sound && findings.length === 0
  if (json) io.out(`${JSON.stringify({ ...chain, sound, findings }, null, 2)}\n`)
  if (!chain.sound) io.err(`${issueLine(brokenLink(chain))}\n`)
  for (const finding of findings) io.err(`${findingLine(finding)}\n`)
  if (!chain.sound || !sound) return exitCode.unusableInput
  const { sequence, hash } = chain.head
  if (json) return exitCode.success
  io.out(`Sound: ${sequence} entries, ${chain.signed ?? 0} signed, head ${sequence}:${hash}\n`)
  if (unsigned !== undefined) io.out(`Note: ${unsigned}\n`)
  return exitCode.success
}

function brokenLink({ sequence, reason }: Extract<ChainVerdict, { sound: false }>): Issue {
  return { path: `entry ${sequence}`, expected: 'an unbroken chain', received: `a broken link: ${reason}` }
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
    const [first, ...more] = positionals
    const head = readHead(values.head)
    if (first === undefined || head === 'bad') return undefined
    return { first, more, head, data: values.data, json: values.json }
  } catch {
    return undefined
  }
}

function readHead(text: string | undefined): Head | undefined | 'bad' {
  if (text === undefined) return undefined
  const [, sequence, hash] = /^(\d{1,9}):([0-9a-f]{64})$/.exec(text) ?? []
  return sequence === undefined || hash === undefined ? 'bad' : { sequence: Number(sequence), hash }
}
