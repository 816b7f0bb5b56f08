import { type ReactNode, useState } from 'react'
import { CheckCell, CheckHead, SortHead } from './table-parts.tsx'
import { type Sort, sorted } from './table-sort.ts'

export interface Column<Row> {
  readonly id: string
  readonly head: string
  readonly cell: (row: Row) => ReactNode
  /** Value to sort by; a column without it cannot be sorted. Empty values always come last. */
  readonly sort?: ((row: Row) => string | number | undefined) | undefined
  /** Right-aligned, tabular figures. */
  readonly numeric?: boolean | undefined
  readonly width?: string | undefined
}

export interface DataTableProps<Row> {
  /** What the table shows, with its count: '22 results on riser C'. */
  readonly caption: string
  readonly captionHidden?: boolean | undefined
  readonly rows: readonly Row[]
  readonly rowId: (row: Row) => string
  /** The first column names the row. */
  readonly columns: readonly Column<Row>[]
  readonly initialSort?: Sort | undefined
  /** The row under consideration. Given onSelect, the first cell becomes the button that selects its row. */
  readonly selectedId?: string | undefined
  readonly onSelect?: ((id: string) => void) | undefined
  /** Ticked rows, for acting on several. */
  readonly checked?: ReadonlySet<string> | undefined
  readonly onCheck?: ((checked: ReadonlySet<string>) => void) | undefined
  /** Hover tells the drawing which place to light; lit rows answer the drawing. */
  readonly onHover?: ((id: string | undefined) => void) | undefined
  readonly lit?: ReadonlySet<string> | undefined
  /** Shown instead of rows when there are none. */
  readonly empty?: ReactNode
  readonly maxHeight?: string | undefined
}

const FIRST_ROWS = 200

/** A sortable table with a caption that stays, which becomes one block a row on a phone. */
export function DataTable<Row>(props: DataTableProps<Row>): ReactNode {
  const [sort, setSort] = useState(props.initialSort)
  const [all, setAll] = useState(false)
  const rows = sorted(props.rows, { columns: props.columns, sort })
  const shown = all ? rows : rows.slice(0, FIRST_ROWS)
  if (props.rows.length === 0 && props.empty !== undefined) return <div className="table-empty">{props.empty}</div>
  return (
    <div
      className="table-scroll"
      style={{ maxHeight: props.maxHeight }}
      // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a region that scrolls must be reachable by keyboard
      tabIndex={0}
      role="region"
      aria-label={props.caption}
    >
      <table className="table">
        <caption className={props.captionHidden === true ? 'visually-hidden' : 'table-caption'}>
          {props.caption}
        </caption>
        <thead>
          <tr>
            {props.onCheck !== undefined && (
              <CheckHead ids={props.rows.map(props.rowId)} checked={props.checked} onCheck={props.onCheck} />
            )}
            {props.columns.map((column) => (
              <SortHead key={column.id} column={column} sort={sort} onSort={setSort} />
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((row) => (
            <TableRow key={props.rowId(row)} row={row} table={props} />
          ))}
        </tbody>
      </table>
      {shown.length < rows.length && (
        <button type="button" className="button button-quiet table-more" onClick={() => setAll(true)}>
          Show all {rows.length} rows
        </button>
      )}
    </div>
  )
}

function TableRow<Row>({ row, table }: { readonly row: Row; readonly table: DataTableProps<Row> }): ReactNode {
  const id = table.rowId(row)
  const [first, ...others] = table.columns
  const selected = id === table.selectedId
  const { onSelect, onHover } = table
  return (
    // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-noninteractive-element-interactions -- the button in the first cell is the keyboard's way
    <tr
      data-selected={selected || undefined}
      data-lit={table.lit?.has(id) === true || undefined}
      data-clickable={onSelect !== undefined || undefined}
      onClick={() => onSelect?.(id)}
      onPointerEnter={() => onHover?.(id)}
      onPointerLeave={() => onHover?.(undefined)}
    >
      {table.onCheck !== undefined && <CheckCell id={id} checked={table.checked} onCheck={table.onCheck} />}
      {first !== undefined && (
        <th scope="row" data-head={first.head} className={first.numeric === true ? 'num' : undefined}>
          {onSelect === undefined ? (
            first.cell(row)
          ) : (
            <button type="button" className="row-button" aria-pressed={selected} onFocus={() => onHover?.(id)}>
              {first.cell(row)}
            </button>
          )}
        </th>
      )}
      {others.map((column) => (
        <td key={column.id} data-head={column.head} className={column.numeric === true ? 'num' : undefined}>
          {column.cell(row)}
        </td>
      ))}
    </tr>
  )
}
