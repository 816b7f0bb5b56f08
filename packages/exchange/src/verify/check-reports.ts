import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { issuedReports } from '../package/issued-reports.ts'
import { REPORTS_FOLDER } from '../package/manifest.ts'
import { currentReport, issuedReport } from '../package/report-names.ts'
import type { PackageRead } from './check-attachments.ts'

/** `%PDF-` (ISO 32000-2, section 7.5.2). */
const PDF = '%PDF-'

/** Reports that are not the ones the record says were issued, or that are not said to be missing. */
export function checkReports({ manifest, files, entries }: PackageRead): Issue[] {
  const issued = new Map(
    issuedReports(entries).map((entry) => [
      `${REPORTS_FOLDER}${issuedReport(entries.indexOf(entry) + 1, entry)}`,
      entry,
    ]),
  )
  const known = new Set(['full', 'redacted'].map((variant) => `${REPORTS_FOLDER}${currentReport(variant)}`))
  const there = [...files].filter(([path]) => path.startsWith(REPORTS_FOLDER))
  const missing = new Set(manifest.missing)
  return [
    ...there.flatMap(([path, bytes]) => {
      const entry = issued.get(path)
      if (entry === undefined && !known.has(path))
        return [
          statedIssue(path, {
            expected: 'a report the record says was issued, or the current one',
            received: 'another',
          }),
        ]
      if (new TextDecoder('latin1').decode(bytes.subarray(0, PDF.length)) !== PDF)
        return [statedIssue(path, { expected: 'a PDF', received: 'something else' })]
      return entry === undefined || sha256OfBytes(bytes) === entry.body.sha256
        ? []
        : [statedIssue(path, { expected: `SHA-256 ${entry.body.sha256}, as issued`, received: sha256OfBytes(bytes) })]
    }),
    ...[...issued].flatMap(([path, { body }]) => {
      if (files.has(path) === !missing.has(body.sha256)) return []
      const received = files.has(path) ? 'a report that is listed as missing' : 'nothing, nor is it listed as missing'
      return [statedIssue(path, { expected: 'the report that was issued', received })]
    }),
  ]
}

/** Reports nobody vouches for but whoever made the package. */
export function reportCautions({ files }: Pick<PackageRead, 'files'>): string[] {
  const made = [...files.keys()].filter((path) => path.startsWith(`${REPORTS_FOLDER}current-`))
  return made.map(
    (path) =>
      `${path} was made when the package was: no entry holds its hash. Make it again from the record to compare.`,
  )
}
