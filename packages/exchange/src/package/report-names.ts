import type { EntryOf } from '@rillmark/casebook/entry/entry.ts'

/** The name of a report that was issued: by the number of the entry that says so. */
export function issuedReport(number: number, { body }: EntryOf<'report.issued'>): string {
  return `issued-${number}-${body.variant}.pdf`
}

/** The name of a report of the record as it stands, made with the package. */
export function currentReport(variant: string): string {
  return `current-${variant}.pdf`
}
