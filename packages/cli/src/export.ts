import { parseArgs } from 'node:util'
import { gatherPackage } from '@rillmark/server/documents/gather-package.ts'
import type { Data } from '@rillmark/server/data/open-data.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { writeOutput } from './files.ts'
import { reportProblems } from './problems.ts'
import { withData } from './with-data.ts'

const HELP = `Usage: rillmark export ID -o FILE.zip [--no-pictures] [--data FOLDER]

Writes the open package of one investigation: the whole record, its pictures,
reports, keys, tables for reading elsewhere, and a page that verifies all of it
without a network. The same record gives the same bytes. At most 512 MB.

  -o, --out  the file to write
  --no-pictures  leaves the pictures out and names them as missing: for a
             record with more than fit
  --data     the data folder (./data)

Ends with 0 on success, 2 when the input can't be used, 1 on an internal
failure.
`

export const exportCommand: Command = {
  name: 'export',
  help: HELP,
  run,
}

async function run(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if (asked === undefined)
    return reportProblems(
      [{ path: 'arguments', expected: 'ID -o FILE.zip, --no-pictures', received: args.join(' ') || 'nothing' }],
      io,
    )
  return withData({ folder: asked.data, io }, async (data) => {
    const links = await data.records.links(asked.id)
    if (links.length === 0)
      return reportProblems([{ path: 'ID', expected: await knownIds(data), received: asked.id }], io)
    const attachment = async (sha256: string) => (await data.attachments.read(sha256))?.bytes
    const gathered = await gatherPackage(links, { attachment, withoutPictures: !asked.pictures })
    if (!gathered.ok) return reportProblems(gathered.issues, io)
    const { bytes, pictures, reports, verifier } = gathered
    const issues = await writeOutput({ file: asked.out, content: bytes }, io)
    if (issues.length > 0) return reportProblems(issues, io)
    io.out(
      `${asked.out}: ${links.length} entries, ${pictures} pictures, ${reports} reports, ${bytes.length} bytes\nHead ${links.length}:${links.at(-1)?.hash}\n`,
    )
    if (!verifier) io.err('verify.html is not inside: the app is not built yet (npm run build)\n')
    return exitCode.success
  })
}

function readOptions(args: string[]): { id: string; out: string; data: string; pictures: boolean } | undefined {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      allowNegative: true,
      options: {
        out: { type: 'string', short: 'o' },
        pictures: { type: 'boolean', default: true },
        data: { type: 'string', default: './data' },
      },
    })
    const [id, second] = positionals
    if (id === undefined || second !== undefined || values.out === undefined) return undefined
    return { id, out: values.out, data: values.data, pictures: values.pictures }
  } catch {
    return undefined
  }
}

/** What an unknown ID could have been. */
export async function knownIds(data: Data): Promise<string> {
  const ids = await data.ledger.investigations()
  return ids.length === 0 ? 'an investigation; this folder has none' : `one of ${ids.join(', ')}`
}
