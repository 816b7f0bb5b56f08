export type Cell = string | number | boolean | undefined

/** What a spreadsheet would run as a formula when a cell begins with it. */
const FORMULA_START = /^[=+\-@\t\r]/

/** A table as CSV (RFC 4180): a header, CRLF, quotes where needed; text that a spreadsheet would run is made harmless. */
export function csvOf(header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [header, ...rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('')
}

function cellText(cell: Cell): string {
  if (cell === undefined) return ''
  if (typeof cell !== 'string') return String(cell)
  const safe = FORMULA_START.test(cell) ? `'${cell}` : cell
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}
