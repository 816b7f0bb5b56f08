import { parseArgs } from 'node:util'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { checkReceipt } from '@rillmark/casebook/receipt/check-receipt.ts'
import { makeReceipt } from '@rillmark/casebook/receipt/make-receipt.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { receiptJson } from '@rillmark/exchange/receipt/receipt-json.ts'
import { receiptPdf } from '@rillmark/exchange/receipt/receipt-pdf.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { openServerKey } from '@rillmark/server/devices/server-key.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { knownIds } from './export.ts'
import { readJson, writeOutput } from './files.ts'
import { reportProblems } from './problems.ts'
import { withData } from './with-data.ts'

const HELP = `Usage: rillmark receipt ID --sample LABEL -o FILE.json|FILE.pdf [--since EARLIER.json] [--data FOLDER]

Writes a receipt of one sample: every entry that names its label, each proved
to be in the record as it stands, signed with the key of the data folder. A
laboratory or another party keeps it and can later check, without this record,
that nothing of it was changed and who gave it.

  --sample   the label, or the code of a consignment
  -o, --out  FILE.json for the receipt itself; FILE.pdf for a page to keep with it
  --since    an earlier receipt: this one then proves that the record goes on from there
  --data     the data folder (./data)

Ends with 0 on success, 2 when the input can't be used, 1 on an internal
failure.
`

export const receiptCommand: Command = { name: 'receipt', help: HELP, run }

interface Asked {
  readonly id: string
  readonly sample: string
  readonly out: string
  readonly since: string | undefined
  readonly data: string
}

async function run(args: string[], io: CommandIo): Promise<number> {
  const asked = readOptions(args)
  if (asked === undefined) {
    const expected = 'ID --sample LABEL -o FILE.json or FILE.pdf, with --since EARLIER.json or --data FOLDER'
    return reportProblems([{ path: 'arguments', expected, received: args.join(' ') || 'nothing' }], io)
  }
  const since = await readEarlier(asked.since, io)
  if ('issues' in since) return reportProblems(since.issues, io)
  return withData({ folder: asked.data, io }, async (data) => {
    const links = await data.records.links(asked.id)
    if (links.length === 0)
      return reportProblems([{ path: 'ID', expected: await knownIds(data), received: asked.id }], io)
    const given = { issuer: openServerKey(data.folder), at: new Date().toISOString() }
    const made = makeReceipt(links, { sample: asked.sample, since: since.receipt, given })
    if (!made.ok) return reportProblems(made.issues, io)
    const { receipt } = made
    const content = asked.out.endsWith('.pdf') ? receiptPdf(receipt) : receiptJson(receipt)
    const issues = await writeOutput({ file: asked.out, content }, io)
    if (issues.length > 0) return reportProblems(issues, io)
    io.out(
      `${asked.out}: ${receipt.proofs.length} entries of ${asked.sample}, in a record of ${receipt.treeSize}\nRoot ${receipt.rootHash}\nKey  ${hashGroups(given.issuer.thumbprint)}\n`,
    )
    return exitCode.success
  })
}

/** An earlier receipt that holds in itself. */
export async function readEarlier(
  file: string | undefined,
  io: CommandIo,
): Promise<{ receipt: Receipt | undefined } | { issues: readonly Issue[] }> {
  if (file === undefined) return { receipt: undefined }
  const read = await readJson(file, io)
  if ('issues' in read) return read
  const checked = checkReceipt(read.value, checkSignature)
  if (checked.ok) return { receipt: checked.receipt }
  return { issues: checked.issues.map((each) => ({ ...each, path: `${file} ${each.path}`.trim() })) }
}

function readOptions(args: string[]): Asked | undefined {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        sample: { type: 'string' },
        out: { type: 'string', short: 'o' },
        since: { type: 'string' },
        data: { type: 'string', default: './data' },
      },
    })
    const [id, second] = positionals
    const { sample, out } = values
    if (id === undefined || second !== undefined || sample === undefined || out === undefined) return undefined
    return /\.(?:json|pdf)$/.test(out) ? { id, sample, out, since: values.since, data: values.data } : undefined
  } catch {
    return undefined
  }
}
