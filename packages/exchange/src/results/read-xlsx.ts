import type { Cell, RawTable } from '@rillmark/casebook/results/raw-table.ts'
import { type CellValue, readXlsx, type Sheet } from 'hucre/xlsx'
import { refused, TABLE_LIMITS, type TableReading, tooLarge } from './table-limits.ts'
import { tableOfGrid } from './table-of-grid.ts'
import { unpackedSize } from './unpacked-size.ts'

/** The tables of a spreadsheet, one a sheet; hidden sheets are left aside and said so. The only place that knows the spreadsheet library. */
export async function readXlsxTables(bytes: Uint8Array): Promise<TableReading> {
  const size = unpackedSize(bytes, TABLE_LIMITS.unpackedBytes)
  if (size.kind === 'too large')
    return refused(`at most ${TABLE_LIMITS.unpackedBytes / 1e6} MB when unpacked`, 'a file that unpacks to more')
  if (size.kind !== 'fits') return refused('a CSV or XLSX file', 'a damaged archive')
  const sheets = await sheetsOf(bytes)
  if (sheets === undefined) return refused('a CSV or XLSX file', 'an archive that is no spreadsheet')
  const problem = sheets.map(({ rows }) => tooLarge(rows)).find((each) => each !== undefined)
  if (problem !== undefined) return problem
  const tables = sheets.flatMap((sheet) => tableOfSheet(sheet) ?? []).filter(({ rows }) => rows.length > 0)
  return tables.length === 0
    ? refused('a sheet with a heading and at least one row', 'empty sheets')
    : { ok: true, tables }
}

async function sheetsOf(bytes: Uint8Array): Promise<Sheet[] | undefined> {
  try {
    const workbook = await readXlsx(bytes, {
      maxRows: TABLE_LIMITS.rows + 1,
      sheets: ({ hidden, veryHidden }) => hidden !== true && veryHidden !== true,
    })
    return workbook.sheets
  } catch {
    return undefined
  }
}

function tableOfSheet({ name, rows }: Sheet): RawTable | undefined {
  return tableOfGrid({
    format: 'XLSX',
    sheet: name,
    notes: [`sheet ${name}`],
    grid: rows.map((row) => row.map(cellOf)),
  })
}

function cellOf(value: CellValue): Cell {
  if (value === null || value === undefined) return { kind: 'empty' }
  if (typeof value === 'number') return Number.isFinite(value) ? { kind: 'number', value } : { kind: 'empty' }
  if (typeof value === 'boolean') return { kind: 'truth', value }
  if (value instanceof Date) return dateCell(value)
  return value.trim() === '' ? { kind: 'empty' } : { kind: 'text', text: value }
}

const DAY_MS = 86_400_000
/** day 0 of the serial numbers in use after February 1900 */
const SERIAL_EPOCH_MS = Date.UTC(1899, 11, 30)

function dateCell(value: Date): Cell {
  const ms = value.getTime()
  if (!Number.isFinite(ms)) return { kind: 'empty' }
  return { kind: 'date', date: value.toISOString().slice(0, 10), serial: (ms - SERIAL_EPOCH_MS) / DAY_MS }
}
