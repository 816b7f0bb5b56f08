/** One cell as the file holds it. A spreadsheet's own number or date stays one, so that what it did to a value can still be seen. */
export type Cell =
  | { readonly kind: 'empty' }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'date'; readonly date: string; readonly serial: number }
  | { readonly kind: 'truth'; readonly value: boolean }

export interface RawRow {
  /** row of the file as a spreadsheet counts it: the heading is row 1 unless lines stand above it */
  readonly number: number
  readonly cells: readonly Cell[]
}

/** A file's table as it was written: headings and rows, nothing read into it. */
export interface RawTable {
  readonly format: 'CSV' | 'XLSX'
  readonly sheet?: string
  readonly headers: readonly string[]
  readonly rows: readonly RawRow[]
  /** how the file was read, for people: encoding, delimiter, sheets left aside */
  readonly notes: readonly string[]
}

/** The cell in plain text, as it is kept beside the result. */
export function cellText(cell: Cell | undefined): string {
  switch (cell?.kind) {
    case 'text':
      return cell.text.trim()
    case 'number':
      return String(cell.value)
    case 'date':
      return cell.date
    case 'truth':
      return cell.value ? 'TRUE' : 'FALSE'
    default:
      return ''
  }
}
