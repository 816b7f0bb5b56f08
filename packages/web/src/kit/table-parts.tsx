import type { ReactNode } from 'react'
import type { Column } from './DataTable.tsx'
import type { Sort } from './table-sort.ts'

type Checking = {
  readonly checked: ReadonlySet<string> | undefined
  readonly onCheck: (checked: ReadonlySet<string>) => void
}

/** A column's head; a button when the column can be sorted. */
export function SortHead<Row>(props: {
  readonly column: Column<Row>
  readonly sort: Sort | undefined
  readonly onSort: (sort: Sort) => void
}): ReactNode {
  const { column, sort } = props
  const direction = sort?.column !== column.id ? undefined : sort.descending ? 'descending' : 'ascending'
  return (
    <th
      scope="col"
      aria-sort={direction}
      className={column.numeric === true ? 'num' : undefined}
      style={{ width: column.width }}
    >
      {column.sort === undefined ? (
        column.head
      ) : (
        <button
          type="button"
          className="sort"
          onClick={() => props.onSort({ column: column.id, descending: direction === 'ascending' })}
        >
          {column.head}
          <span className="sort-mark" data-direction={direction} aria-hidden="true" />
        </button>
      )}
    </th>
  )
}

/** Ticks or clears every row. */
export function CheckHead({ ids, checked, onCheck }: Checking & { readonly ids: readonly string[] }): ReactNode {
  const every = ids.length > 0 && ids.every((id) => checked?.has(id) === true)
  return (
    <th scope="col" className="check-cell">
      <input
        type="checkbox"
        aria-label="tick all rows"
        checked={every}
        onChange={() => onCheck(new Set(every ? [] : ids))}
      />
    </th>
  )
}

/** Ticks one row. */
export function CheckCell({ id, checked, onCheck }: Checking & { readonly id: string }): ReactNode {
  const on = checked?.has(id) === true
  const toggle = (): void => {
    const next = new Set(checked)
    if (on) next.delete(id)
    else next.add(id)
    onCheck(next)
  }
  return (
    // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-noninteractive-element-interactions -- only keeps a tick from also selecting the row
    <td className="check-cell" onClick={(event) => event.stopPropagation()}>
      <input type="checkbox" aria-label={`tick ${id}`} checked={on} onChange={toggle} />
    </td>
  )
}
