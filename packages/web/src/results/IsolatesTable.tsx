import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { IsolateDialog } from './IsolateDialog.tsx'

/** Strains recovered so far; the comparison is on Findings. */
export function IsolatesTable(): ReactNode {
  const { state } = useInvestigation()
  const [amends, setAmends] = useState<EffectiveEntry<'isolate.recorded'>>()
  return (
    <>
      <DataTable
        caption={`${state.results.isolates.size} isolates; choose one to amend it`}
        rows={[...state.results.isolates.values()]}
        rowId={({ body }) => body.code}
        onSelect={(code) => setAmends(state.results.isolates.get(code))}
        columns={[
          { id: 'code', head: 'Isolate', cell: ({ body }) => body.code, sort: ({ body }) => body.code },
          {
            id: 'from',
            head: 'From',
            cell: ({ body }) =>
              body.from.origin === 'case' ? `case ${body.from.caseCode}` : `sample ${body.from.label}`,
          },
          { id: 'species', head: 'Species', cell: ({ body }) => body.species, sort: ({ body }) => body.species },
          { id: 'serogroup', head: 'Serogroup', cell: ({ body }) => body.serogroup ?? 'not done' },
          { id: 'mono', head: 'Monoclonal type', cell: ({ body }) => body.monoclonalType ?? 'not done' },
          { id: 'st', head: 'Sequence type', cell: ({ body }) => body.sequenceType ?? 'not done' },
        ]}
      />
      {amends !== undefined && <IsolateDialog amends={amends} onClose={() => setAmends(undefined)} />}
    </>
  )
}
