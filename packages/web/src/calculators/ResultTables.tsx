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
        ...table.columns.map(({ name, label, numeric }, at) => ({
          id: name,
          head: label,
          cell: ({ cells }: { cells: readonly string[] }) =>
            isShare(table, label) ? <Share words={cells[at] ?? ''} /> : cells[at],
          numeric,
        })),
      ]}
      maxHeight="22rem"
    />
  ))
}

/** A list of shares by day or time is read at a glance with a bar behind each. */
function isShare({ columns }: ResultTable, label: string): boolean {
  return columns.length === 2 && label.endsWith('0 to 1')
}

function Share({ words }: { readonly words: string }): ReactNode {
  const share = Number(words)
  return (
    <span className="calc-share">
      <span className="calc-share-track" aria-hidden="true">
        <span style={{ width: `${Math.min(1, Math.max(0, share)) * 100}%` }} />
      </span>
      <span className="calc-share-words">{words}</span>
    </span>
  )
}
