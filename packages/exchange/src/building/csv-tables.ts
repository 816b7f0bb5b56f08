import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { TableName } from '@rillmark/casebook/building/table-columns.ts'
import type { Merged, TextTable } from '@rillmark/casebook/building/tables.ts'
import { mergeTable, tableOf } from '@rillmark/casebook/building/tables.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import Papa from 'papaparse'
import { csvOf, plainCell } from '../package/csv.ts'
import { fileText } from '../results/file-text.ts'

/** A file larger than this is no table of a building. */
const LARGEST_BYTES = 50 * 1024 * 1024
const MOST_ROWS = 50_000
const MOST_COLUMNS = 200

/**
 * Merges a CSV file of components or pipes into a water system. Encoding, delimiter (comma, semicolon, tab) and decimal
 * sign are recognised; rows that can't be used are listed with their line and left out.
 *
 * @param given.file the bytes of the file, or its text
 */
export function mergeCsv(system: WaterSystem, given: { table: TableName; file: Uint8Array | string }): Merged {
  const { table, file } = given
  const refuse = (found: Issue): Merged => ({ system, added: [], changed: [], issues: [found] })
  if (file.length > LARGEST_BYTES)
    return refuse(issue('file', { expected: 'at most 50 MB', received: `${Math.ceil(file.length / 1e6)} MB` }))
  const text = typeof file === 'string' ? file.replace(/^\uFEFF/, '') : fileText(file).text
  if (text.includes('\0'))
    return refuse(issue('file', { expected: 'text in rows and columns', received: 'a binary file' }))
  const read = readText(text)
  return 'header' in read ? mergeTable(system, { table, text: read }) : refuse(read)
}

function readText(text: string): TextTable | Issue {
  const parsed = Papa.parse<string[]>(text, {
    delimiter: delimiterOf(text),
    skipEmptyLines: false,
    preview: MOST_ROWS + 1,
  })
  const quote = parsed.errors.find(({ type }) => type === 'Quotes')
  if (quote !== undefined)
    return issue(`line ${(quote.row ?? 0) + 1}`, { expected: 'every quotation mark closed', received: 'an open one' })
  if (parsed.data.length > MOST_ROWS)
    return statedIssue('file', { expected: `at most ${MOST_ROWS} rows`, received: 'more' })
  if (parsed.data.some((row) => row.length > MOST_COLUMNS))
    return statedIssue('file', { expected: `at most ${MOST_COLUMNS} columns`, received: 'more' })
  const lines = parsed.data.map((cells, index) => ({ line: index + 1, cells: cells.map(plainCell) }))
  const [header, ...rows] = lines.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''))
  if (header === undefined) return issue('file', { expected: 'a heading and rows', received: 'an empty file' })
  return {
    header: header.cells,
    rows: rows.map(({ line, cells }) => ({ line, cells: withoutEmptyEnd(cells, header.cells) })),
  }
}

/** A spreadsheet often adds empty cells at the end of a row. */
function withoutEmptyEnd(cells: string[], header: readonly string[]): string[] {
  const last = cells.findLastIndex((cell) => cell.trim() !== '')
  return cells.slice(0, Math.max(header.length, last + 1))
}

/** The delimiter that parts the heading into most columns. */
function delimiterOf(text: string): string {
  const first = text.split(/\r\n|\n|\r/).find((line) => line.trim() !== '') ?? ''
  const count = (delimiter: string): number => first.split(delimiter).length
  return [';', '\t', ','].reduce((best, one) => (count(one) > count(best) ? one : best))
}

/** The components or pipes of a system as a CSV file; text a spreadsheet would run as a formula is made harmless. */
export function csvTable(system: WaterSystem, table: TableName): string {
  const { header, rows } = tableOf(system, table)
  return csvOf(header, rows)
}
