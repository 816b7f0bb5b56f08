import { readCsv } from './read-csv.ts'
import { refused, TABLE_LIMITS, type TableReading } from './table-limits.ts'

/**
 * The table (of a spreadsheet: each sheet's table) in a file of a laboratory: CSV in any usual encoding, or XLSX.
 * What the file is follows from its bytes, not from its name. Never throws on a bad file.
 */
export async function readTable(file: { name: string; bytes: Uint8Array }): Promise<TableReading> {
  const { bytes } = file
  if (bytes.length === 0) return refused('a file with content', 'an empty file')
  if (bytes.length > TABLE_LIMITS.fileBytes)
    return refused(`a file of at most ${TABLE_LIMITS.fileBytes / 1e6} MB`, `${Math.ceil(bytes.length / 1e6)} MB`)
  if (startsWith(bytes, [0x50, 0x4b])) {
    const { readXlsxTables } = await import('./read-xlsx.ts')
    return readXlsxTables(bytes)
  }
  const other = otherFormat(bytes)
  if (other !== undefined) return refused('a CSV or XLSX file', other)
  return readCsv(bytes)
}

function otherFormat(bytes: Uint8Array): string | undefined {
  if (startsWith(bytes, [0x25, 0x50, 0x44, 0x46]))
    return 'a PDF: ask the laboratory for CSV or XLSX, or type the results in'
  if (startsWith(bytes, [0xd0, 0xcf, 0x11, 0xe0]))
    return 'an old or password-protected spreadsheet: save it as XLSX or CSV without a password'
  if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47]) || startsWith(bytes, [0xff, 0xd8, 0xff])) return 'a picture'
  return undefined
}

function startsWith(bytes: Uint8Array, head: readonly number[]): boolean {
  return head.every((byte, index) => bytes[index] === byte)
}
