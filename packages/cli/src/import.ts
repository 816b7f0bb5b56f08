import { resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { readPackage } from '@rillmark/exchange/package/read-package.ts'
import { ZIP_LIMITS } from '@rillmark/exchange/package/zip-directory.ts'
import { quickSignatureCheck } from '@rillmark/server/devices/check-signature.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { importPackage } from '@rillmark/server/records/import-package.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { readBytes } from './files.ts'
import { reportProblems } from './problems.ts'

const HELP = `Usage: rillmark import FILE.zip [--data FOLDER]

Takes an open package in. Everything in it is verified before anything is kept;
a package that tells another story than the folder holds is refused whole.

  --data  the data folder, made when absent (./data)

Ends with 0 on success, 2 when the package can't be used (a line on standard
error for each problem), 1 on an internal failure.
`

export const importCommand: Command = {
  name: 'import',
  help: HELP,
  run,
}

async function run(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if (asked === undefined)
    return reportProblems([{ path: 'arguments', expected: 'FILE.zip', received: args.join(' ') || 'nothing' }], io)
  const file = await readBytes({ file: asked.file, largestBytes: ZIP_LIMITS.archiveBytes }, io)
  if ('issues' in file) return reportProblems(file.issues, io)
  const read = readPackage(file.bytes, { checkSignature: quickSignatureCheck() })
  if (!read.ok) return reportProblems(read.issues, io)
  const data = openData(resolve(io.cwd, asked.data))
  try {
    const imported = await importPackage(read.value, data)
    if (!imported.ok) return reportProblems(imported.issues, io)
    const { manifest } = read.value
    io.out(
      `${manifest.investigation}: ${imported.added} entries added, ${imported.head.sequence} in all\nHead ${imported.head.sequence}:${imported.head.hash}\n`,
    )
    return exitCode.success
  } finally {
    await data.ledger.close()
  }
}

function readOptions(args: string[]): { file: string; data: string } | undefined {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: { data: { type: 'string', default: './data' } },
    })
    const [file, second] = positionals
    return file === undefined || second !== undefined ? undefined : { file, data: values.data }
  } catch {
    return undefined
  }
}
