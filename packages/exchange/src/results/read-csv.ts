import type { Cell } from '@rillmark/casebook/results/raw-table.ts'
import Papa from 'papaparse'
import { fileText } from './file-text.ts'
import { refused, TABLE_LIMITS, type TableReading, tooLarge } from './table-limits.ts'
import { tableOfGrid } from './table-of-grid.ts'

const DELIMITER_WORDS: Readonly<Record<string, string>> = { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar' }

/** A CSV file's table, every cell as text exactly as it was written. */
export function readCsv(bytes: Uint8Array): TableReading {
  const { text, encoding } = fileText(bytes)
  if (text.includes('\0')) return refused('text in rows and columns', 'a binary file')
  const parsed = Papa.parse<string[]>(text, { delimiter: delimiterOf(text), preview: TABLE_LIMITS.rows + HEADROOM })
  const quote = parsed.errors.find(({ type }) => type === 'Quotes')
  if (quote !== undefined) return refused('every quotation mark closed', `an open one in row ${(quote.row ?? 0) + 1}`)
  const problem = tooLarge(parsed.data)
  if (problem !== undefined) return problem
  const delimiter = DELIMITER_WORDS[parsed.meta.delimiter] ?? parsed.meta.delimiter
  const table = tableOfGrid({
    format: 'CSV',
    notes: [`read as ${encoding}, columns separated by ${delimiter}`],
    grid: parsed.data.map((row) => row.map(cellOf)),
  })
  if (table === undefined) return refused('a heading and at least one row', 'a file without content')
  if (table.rows.length === 0) return refused('at least one row below the heading', 'only a heading')
  return { ok: true, tables: [table] }
}

const HEADROOM = 100

/**
 * The delimiter that gives the most rows the same number of columns. Where two do equally well the comma loses: it may be a decimal
 * sign, while a semicolon or tab rarely stands in every row for another reason.
 */
export function delimiterOf(text: string): string {
  const scored = [';', '\t', '|', ','].map((delimiter) => ({ delimiter, share: evenness(text, delimiter) }))
  return scored.reduce((best, each) => (each.share > best.share ? each : best)).delimiter
}

const SAMPLE_ROWS = 100

function evenness(text: string, delimiter: string): number {
  const rows = Papa.parse<string[]>(text, { delimiter, preview: SAMPLE_ROWS }).data.filter((row) =>
    row.some((cell) => cell.trim() !== ''),
  )
  const times = new Map<number, number>()
  for (const { length } of rows) if (length > 1) times.set(length, (times.get(length) ?? 0) + 1)
  return Math.max(0, ...times.values()) / Math.max(1, rows.length)
}

function cellOf(text: string): Cell {
  return text.trim() === '' ? { kind: 'empty' } : { kind: 'text', text }
}
