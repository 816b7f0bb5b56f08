export type Cell = string | number | boolean | undefined

/**
 * What a spreadsheet would run as a formula when a cell begins with it, in ordinary or full-width signs; behind quote marks too, so that
 * taking one off again gives back what was there.
 */
const FORMULA_START = /^'*[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/

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

/** Takes off the quote mark our own files put before text a spreadsheet would run. */
export function plainCell(cell: string): string {
  return cell.startsWith("'") && FORMULA_START.test(cell) ? cell.slice(1) : cell
}
