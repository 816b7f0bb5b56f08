import type { Entry, EntryOf } from '@rillmark/casebook/entry/entry.ts'

/** Every report the entries say was issued, in order. Its hash stands in the entry: the record vouches for those bytes. */
export function issuedReports(entries: readonly Entry[]): EntryOf<'report.issued'>[] {
  return entries.filter((entry) => entry.kind === 'report.issued')
}
