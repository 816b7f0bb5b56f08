import { localDate } from '@rillmark/casebook/units/local-time.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { useInvestigation } from '../store/investigation.tsx'

/** Files accepted so far, with what was set aside of each and why. */
export function ImportsTable(): ReactNode {
  const { state } = useInvestigation()
  return (
    <DataTable
      caption={`${state.results.imports.length} accepted`}
      captionHidden
      rows={state.results.imports}
      rowId={({ id }) => id}
      columns={[
        { id: 'file', head: 'File', cell: ({ body }) => body.fileName },
        { id: 'lab', head: 'Laboratory', cell: ({ body }) => body.laboratory },
        { id: 'on', head: 'Accepted', cell: (entry) => `${localDate(entry)}, ${entry.author}` },
        { id: 'rows', head: 'Rows', numeric: true, cell: ({ body }) => `${body.accepted} of ${body.rows}` },
        {
          id: 'aside',
          head: 'Set aside',
          cell: ({ body }) =>
            body.setAside.length === 0 ? (
              'none'
            ) : (
              <Disclosure summary={`${body.setAside.length} with reasons`}>
                <ul>
                  {body.setAside.map(({ row, reason }) => (
                    <li key={row}>
                      row {row}: {reason}
                    </li>
                  ))}
                </ul>
              </Disclosure>
            ),
        },
      ]}
    />
  )
}
