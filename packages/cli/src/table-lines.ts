/** Rows of cells as lines with their columns under each other; the last cell of a row may be as long as it likes. */
export function alignedLines(rows: readonly (readonly string[])[]): string[] {
  const columns = Math.max(0, ...rows.map((row) => row.length))
  const widths = Array.from({ length: columns }, (_, at) =>
    Math.max(0, ...rows.map((row) => (at < row.length - 1 ? (row[at] ?? '').length : 0))),
  )
  return rows.map((row) =>
    row
      .map((cell, at) => cell.padEnd(widths[at] ?? 0))
      .join('  ')
      .trimEnd(),
  )
}

/** A heading after an empty line, with its lines set in below; nothing where there are none. */
export const sectionLines = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)]
