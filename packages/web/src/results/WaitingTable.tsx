import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { WaitingSample } from '@rillmark/casebook/results/waiting.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Tag } from '../kit/Tag.tsx'

/** Samples whose result is still out, oldest first. */
export function WaitingTable({ waiting }: { readonly waiting: readonly WaitingSample[] }): ReactNode {
  return (
    <DataTable
      caption={`${waiting.length} samples without a final result`}
      captionHidden
      rows={waiting}
      rowId={({ sample }) => sample.label}
      maxHeight="20rem"
      columns={[
        {
          id: 'label',
          head: 'Sample',
          cell: ({ sample }) => <span className="mono">{sample.label}</span>,
          sort: ({ sample }) => sample.label,
        },
        {
          id: 'kind',
          head: 'Kind',
          cell: ({ sample }) => (sample.sampleKind === undefined ? 'not stated' : SAMPLE_KIND_WORDS[sample.sampleKind]),
        },
        {
          id: 'collected',
          head: 'Collected',
          cell: ({ sample }) => sample.collectedOn ?? 'not stated',
          sort: ({ sample }) => sample.collectedOn,
        },
        { id: 'days', head: 'Days out', numeric: true, cell: ({ days }) => days ?? '', sort: ({ days }) => days },
        {
          id: 'why',
          head: 'State',
          cell: ({ why }) => (
            <Tag
              shape={why === 'no result yet' ? 'dashed' : why === 'only preliminary' ? 'half' : 'cross'}
              kind={why.startsWith('not') ? 'warn' : 'plain'}
            >
              {why}
            </Tag>
          ),
        },
      ]}
    />
  )
}
