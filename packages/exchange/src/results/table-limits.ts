import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { RawTable } from '@rillmark/casebook/results/raw-table.ts'

export type TableReading =
  | { readonly ok: true; readonly tables: readonly RawTable[] }
  | { readonly ok: false; readonly issues: readonly Issue[] }

/** What a file may be at most. A laboratory report is a few hundred rows; these keep a mistake or a trap from stopping the machine. */
export const TABLE_LIMITS = {
  fileBytes: 20_000_000,
  unpackedBytes: 100_000_000,
  rows: 50_000,
  columns: 200,
  cellCharacters: 4000,
} as const

export function refused(expected: string, received: string): TableReading {
  return { ok: false, issues: [issue('file', { expected, received })] }
}

/** Says what of a table is beyond the limits, if anything is. */
export function tooLarge(grid: readonly (readonly unknown[])[]): TableReading | undefined {
  if (grid.length > TABLE_LIMITS.rows)
    return refused(`at most ${TABLE_LIMITS.rows} rows`, `more than ${TABLE_LIMITS.rows}`)
  if (grid.some((row) => row.length > TABLE_LIMITS.columns))
    return refused(`at most ${TABLE_LIMITS.columns} columns`, 'more')
  const long = grid.findIndex((row) =>
    row.some((cell) => typeof cell === 'string' && cell.length > TABLE_LIMITS.cellCharacters),
  )
  return long < 0
    ? undefined
    : refused(`cells of at most ${TABLE_LIMITS.cellCharacters} characters`, `a longer one in row ${long + 1}`)
}
