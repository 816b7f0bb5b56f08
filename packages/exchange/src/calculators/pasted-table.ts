import Papa from 'papaparse'
import { delimiterOf } from '../results/read-csv.ts'

/** Rows of text below a heading, each as wide as the heading; or the one thing that keeps them from being read. */
export type PastedTable =
  | { readonly ok: true; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] }
  | { readonly ok: false; readonly problem: string }

const MOST_CHARACTERS = 5_000_000

/**
 * A table copied from a spreadsheet or typed: a heading, then one row a line, columns parted by tab, semicolon or comma. Empty rows and
 * empty columns at the right edge are left out; rows are counted below the heading.
 */
export function readPastedTable(text: string): PastedTable {
  if (text.length > MOST_CHARACTERS) return { ok: false, problem: 'This table is too long to paste.' }
  const { data, errors } = Papa.parse<string[]>(text, { delimiter: delimiterOf(text) })
  const quote = errors.find(({ type }) => type === 'Quotes')
  if (quote !== undefined)
    return { ok: false, problem: `A quotation mark in line ${(quote.row ?? 0) + 1} is not closed.` }
  const grid = data
    .map((cells) => cells.map((cell) => cell.trim()))
    .filter((cells) => cells.some((cell) => cell !== ''))
  const [head = [], ...rows] = grid.map(withoutEmptyEnd)
  if (rows.length === 0) return { ok: false, problem: 'A heading and at least one row below it are needed.' }
  const wide = rows.findIndex(({ length }) => length > head.length)
  if (wide >= 0)
    return {
      ok: false,
      problem: `Row ${wide + 1} has ${rows[wide]?.length} columns, the heading ${head.length}.`,
    }
  return { ok: true, head, rows: rows.map((cells) => head.map((_, column) => cells[column] ?? '')) }
}

function withoutEmptyEnd(cells: readonly string[]): readonly string[] {
  return cells.slice(0, cells.findLastIndex((cell) => cell !== '') + 1)
}

/** A table as text that reads back the same: semicolons, because a comma may stand in a number and a tab can't be typed into a form. */
export function pastedTableText(rows: readonly (readonly string[])[]): string {
  return Papa.unparse(
    rows.map((cells) => [...cells]),
    { delimiter: ';', newline: '\n' },
  )
}
