import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import type { ResultTable } from './result-rows.ts'

/** The lists in a result, each as a table that scrolls by itself. */
export function ResultTables({ tables }: { readonly tables: readonly ResultTable[] }): ReactNode {
  return tables.map((table) => (
    <DataTable
      key={table.path}
      caption={table.label}
      rows={table.rows.map((cells, index) => ({ number: index + 1, cells }))}
      rowId={({ number }) => String(number)}
      columns={[
        { id: 'number', head: 'No.', cell: ({ number }) => number, width: '3rem' },
        ...table.columns.map(({ name, label }, at) => ({
          id: name,
          head: label,
          cell: ({ cells }: { cells: readonly string[] }) => cells[at],
          numeric: true,
        })),
      ]}
      maxHeight="22rem"
    />
  ))
}
