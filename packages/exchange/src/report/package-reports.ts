import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import { emptyHead, headAfter, type Link, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import type { EntryOf } from '@rillmark/casebook/entry/entry.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { issuedReports } from '../package/issued-reports.ts'
import { currentReport, issuedReport } from '../package/report-names.ts'
import { makeReportPdf } from './make-report-pdf.ts'

/**
 * The reports of a record as PDF, by name: each that was issued, where the same bytes can be made again, and the current one. The same
 * record gives the same bytes; a report issued by another version may not come out the same, and is then left out.
 */
export function packageReports(links: readonly Link[]): Map<string, Uint8Array> {
  const entries = entriesOf(links)
  const reports = new Map<string, Uint8Array>()
  for (const entry of issuedReports(entries)) {
    const pdf = reportAgain(links, entry)
    if (pdf !== undefined) reports.set(issuedReport(entries.indexOf(entry) + 1, entry), pdf)
  }
  const current = reportOf(links, { variant: 'full', units: undefined })
  if (current !== undefined) reports.set(currentReport('full'), current)
  return reports
}

/** The bytes that were issued, or nothing. */
function reportAgain(links: readonly Link[], { body }: EntryOf<'report.issued'>): Uint8Array | undefined {
  const pdf = reportOf(links.slice(0, body.headSequence), body)
  return pdf !== undefined && sha256OfBytes(pdf) === body.sha256 ? pdf : undefined
}

function reportOf(
  links: readonly Link[],
  { variant, units }: Pick<EntryOf<'report.issued'>['body'], 'variant' | 'units'>,
): Uint8Array | undefined {
  const investigation = links[0]?.entry.investigation
  if (investigation === undefined) return undefined
  const state = derive(investigation, entriesOf(links))
  const head = headAfter(emptyHead(investigation), links)
  return makeReportPdf(state, { head, variant, ...(units === undefined ? {} : { units }) })
}
