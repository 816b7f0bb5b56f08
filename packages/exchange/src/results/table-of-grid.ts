import type { Cell, RawRow, RawTable } from '@rillmark/casebook/results/raw-table.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'

/**
 * Finds the heading of a table (the first row that is mostly filled, with rows below) and leaves out rows without content. Lines above
 * the heading, such as a letterhead, are told in the notes.
 */
export function tableOfGrid(
  from: Omit<RawTable, 'headers' | 'rows'> & { grid: readonly (readonly Cell[])[] },
): RawTable | undefined {
  const { grid, notes, ...rest } = from
  const widest = Math.max(0, ...grid.slice(0, HEADING_WITHIN).map(filled))
  const at = grid.findIndex((cells) => filled(cells) >= Math.max(1, Math.ceil(widest * HEADING_FILLED)))
  const heading = grid[at]
  if (heading === undefined) return undefined
  const rows = grid
    .slice(at + 1)
    .flatMap((cells, index): RawRow[] => (filled(cells) === 0 ? [] : [{ number: at + index + 2, cells }]))
  const above = at === 0 ? [] : [`${counted(at, 'line')} above the heading left aside`]
  return { ...rest, headers: headersOf(heading, rows), rows, notes: [...notes, ...above] }
}

const HEADING_WITHIN = 30
const HEADING_FILLED = 0.6

function filled(cells: readonly Cell[]): number {
  return cells.filter(({ kind }) => kind !== 'empty').length
}

/** Each heading once: empty ones are named by their column letter, repeated ones are counted. */
function headersOf(heading: readonly Cell[], rows: readonly RawRow[]): string[] {
  const width = rows.reduce((most, { cells }) => Math.max(most, cells.length), heading.length)
  const seen = new Map<string, number>()
  return Array.from({ length: width }, (_, index) => {
    const cell = heading[index]
    const text = cell === undefined || cell.kind === 'empty' ? '' : headerText(cell)
    const name = (text === '' ? `column ${columnLetter(index)}` : text).slice(0, 190)
    const count = (seen.get(name) ?? 0) + 1
    seen.set(name, count)
    return count === 1 ? name : `${name} (${count})`
  })
}

function headerText(cell: Cell): string {
  if (cell.kind === 'text') return cell.text.replace(/\s+/g, ' ').trim()
  if (cell.kind === 'number') return String(cell.value)
  return cell.kind === 'date' ? cell.date : ''
}

function columnLetter(index: number): string {
  const rest = Math.floor(index / 26)
  return (rest === 0 ? '' : columnLetter(rest - 1)) + String.fromCharCode(65 + (index % 26))
}
