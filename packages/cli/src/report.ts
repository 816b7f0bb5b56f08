import { parseArgs } from 'node:util'
import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { emptyHead, headAfter, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { UNIT_SYSTEMS, type UnitSystem, unitsOf } from '@rillmark/casebook/units/display-units.ts'
import { makeReportPdf } from '@rillmark/exchange/report/make-report-pdf.ts'
import type { Data } from '@rillmark/server/data/open-data.ts'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { knownIds } from './export.ts'
import { writeOutput } from './files.ts'
import { reportProblems } from './problems.ts'
import { withData } from './with-data.ts'

const HELP = `Usage: rillmark report ID -o OUT.pdf [--redacted] [--units us] [--data FOLDER]

Writes the report of an investigation as PDF/A-2a: what was done, found and
concluded, each line with the numbers of the entries it rests on.

  ID          the investigation, as in its address
  -o          the file to write
  --redacted  without what could point to a person: case codes, days of onset,
              rooms, names of workers. Read it through before it leaves your hands.
  --units     metric (as the record keeps them) or us: °F, US gallons, inches,
              feet and pounds
  --data      where records are kept (./data)

The report speaks of the day of the last entry; the same record gives the same
bytes. It names the head of the record, which rillmark verify checks.

Ends with 0 on success, 2 when the options or the record can't be used, 1 on an
internal failure.
`

export const reportCommand: Command = {
  name: 'report',
  help: HELP,
  run: report,
}

async function report(args: string[], io: CommandIo): Promise<number> {
  const asked = readArguments(args)
  if (asked === undefined) {
    const expected = 'ID -o OUT.pdf, with --redacted, --units metric or us, or --data FOLDER'
    return reportProblems([{ path: 'arguments', expected, received: args.join(' ') || 'nothing' }], io)
  }
  return withData({ folder: asked.data, io }, (data) => writeReport(data, { asked, io }))
}

async function writeReport(data: Data, { asked, io }: { asked: Asked; io: CommandIo }): Promise<number> {
  const { id, out, redacted, units } = asked
  const links = await data.records.links(id)
  if (links.length === 0) return reportProblems([{ path: 'ID', expected: await knownIds(data), received: id }], io)
  const head = headAfter(emptyHead(id), links)
  const pdf = makeReportPdf(derive(id, entriesOf(links)), {
    head,
    variant: redacted ? 'redacted' : 'full',
    units: unitsOf(units),
  })
  const issues = await writeOutput({ file: out, content: pdf }, io)
  if (issues.length > 0) return reportProblems(issues, io)
  io.out(
    `${out}: report of ${links.length} entries, SHA-256 ${sha256OfBytes(pdf)}\nHead ${head.sequence}:${head.hash}\n`,
  )
  return exitCode.success
}

interface Asked {
  readonly id: string
  readonly out: string
  readonly data: string
  readonly redacted: boolean
  readonly units: UnitSystem
}

function readArguments(args: string[]): Asked | undefined {
  try {
    const { values, positionals } = parseArgs({
      args,
      allowPositionals: true,
      options: {
        out: { type: 'string', short: 'o' },
        data: { type: 'string', default: './data' },
        redacted: { type: 'boolean', default: false },
        units: { type: 'string', default: 'metric' },
      },
    })
    const [id, ...more] = positionals
    const units = UNIT_SYSTEMS.find((system) => system === values.units)
    if (id === undefined || more.length > 0 || values.out === undefined || units === undefined) return undefined
    return { id, out: values.out, data: values.data, redacted: values.redacted, units }
  } catch {
    return undefined
  }
}
