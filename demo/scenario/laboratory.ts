import { sha256Of } from '@rillmark/casebook/chain/link.ts'
import type { Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { acceptResults, type RowDecision } from '@rillmark/casebook/results/accept.ts'
import { type ReviewedRow, reviewResults } from '@rillmark/casebook/results/review.ts'
import { readRows } from '@rillmark/exchange/results/read-rows.ts'
import { readTable } from '@rillmark/exchange/results/read-table.ts'
import { proposeMapping } from '@rillmark/exchange/results/remembered-mapping.ts'
import { type DemoDesk, VALE } from '../desk.ts'

export const LABORATORY = 'Quillhaven Water Laboratory'

/** What the laboratory found in one sample: a count in CFU/mL, or its words. */
export type Found = number | 'not detected' | 'detected' | 'overgrown' | '< 0.05'

export interface LabReport {
  readonly round: string
  readonly at: string
  readonly collectedOn: string
  readonly reportedOn: string
  readonly reportId: string
  readonly found: (sample: { label: string; sampleKind: string; stop: Stop }) => Found | undefined
}

/**
 * Writes the file the laboratory would send, then takes it in as a person would: bytes, table, columns, review, acceptance.
 * @throws Error when the review wants a decision the example does not foresee
 */
export async function importReport(desk: DemoDesk, report: LabReport): Promise<void> {
  const name = `${report.reportId}.csv`
  const csv = fileOf(desk, report)
  const read = await readTable({ name, bytes: new TextEncoder().encode(csv) })
  const table = read.ok ? read.tables[0] : undefined
  if (table === undefined) throw new Error('The example’s laboratory file can’t be read')
  const { mapping } = proposeMapping(table, { results: desk.state.results, laboratory: LABORATORY })
  const review = reviewResults({ state: desk.state, rows: readRows(table, mapping), laboratory: LABORATORY })
  const decisions = new Map(
    review.rows.filter(({ state }) => state === 'attention').map((row) => [row.row, decided(row)]),
  )
  const accepted = acceptResults({ review, decisions, file: { name, sha256: sha256Of(csv) }, mapping })
  if (!accepted.ok) throw new Error(`The example’s laboratory file is not accepted: ${JSON.stringify(accepted.issues)}`)
  const imported = desk.write('results.imported', accepted.value.imported, { at: report.at, by: VALE })
  for (const { kind, body, corrects } of accepted.value.entriesOf(imported.id))
    desk.write(kind, body, { at: report.at, by: VALE, ...(corrects === undefined ? {} : { corrects }) })
}

/** The example’s files are clean: a row that waits is shown to whoever edits the example. */
function decided(row: ReviewedRow): RowDecision {
  throw new Error(
    `Row ${row.row} of the example’s laboratory file waits: ${row.reasons.map(({ words }) => words).join('; ')}`,
  )
}

const HEAD = 'Sample label,Sample kind,Collected,Reported,Report no.,Result,Unit,Species,Serogroup'

function fileOf(desk: DemoDesk, report: LabReport): string {
  const plan = desk.state.plan.rounds.get(report.round)?.body.plan
  const lines = (plan?.stops ?? []).flatMap((stop) =>
    stop.samples.flatMap(({ label, sampleKind }) => {
      const found =
        label === undefined || !desk.state.fieldwork.samples.has(label)
          ? undefined
          : report.found({ label, sampleKind, stop })
      return label === undefined || found === undefined ? [] : [lineOf({ label, sampleKind, found, report })]
    }),
  )
  return [HEAD, ...lines].join('\r\n')
}

function lineOf({
  label,
  sampleKind,
  found,
  report,
}: {
  label: string
  sampleKind: string
  found: Found
  report: LabReport
}): string {
  const counted = typeof found === 'number'
  const grew = counted || found === 'detected'
  const unit = counted || found === '< 0.05' ? 'CFU/mL' : ''
  const type = grew ? ['L. pneumophila', '1'] : ['', '']
  return [label, sampleKind, report.collectedOn, report.reportedOn, report.reportId, String(found), unit, ...type].join(
    ',',
  )
}
