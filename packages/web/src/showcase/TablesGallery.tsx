import { type ReactNode, useState } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { Section } from '../kit/Section.tsx'
import { Tag } from '../kit/Tag.tsx'

interface Row {
  readonly id: string
  readonly place: string
  readonly sample: string
  readonly cfuPerMl: number | undefined
  readonly hotC: number
}

const ROWS: readonly Row[] = [
  { id: 'a', place: '604 shower', sample: 'first flush + swab', cfuPerMl: 38, hotC: 41.2 },
  { id: 'b', place: '604 shower', sample: 'bulk, run warm', cfuPerMl: 12, hotC: 41.2 },
  { id: 'c', place: '504 basin tap', sample: 'bulk, run warm', cfuPerMl: 21, hotC: 42 },
  { id: 'd', place: '304 shower', sample: 'first flush + swab', cfuPerMl: 9, hotC: 44.6 },
  { id: 'e', place: '104 basin tap', sample: 'bulk, run warm', cfuPerMl: undefined, hotC: 51.3 },
]

const COLUMNS: readonly Column<Row>[] = [
  { id: 'place', head: 'Place', cell: (row) => row.place, sort: (row) => row.place },
  { id: 'sample', head: 'Sample', cell: (row) => row.sample, sort: (row) => row.sample },
  {
    id: 'state',
    head: 'State',
    cell: (row) =>
      row.cfuPerMl === undefined ? (
        <Tag shape="open">not detected</Tag>
      ) : (
        <Tag shape="full" kind="bad">
          detected
        </Tag>
      ),
  },
  { id: 'count', head: 'CFU/mL', cell: (row) => row.cfuPerMl ?? '–', sort: (row) => row.cfuPerMl, numeric: true },
  { id: 'hot', head: 'Hot, °C', cell: (row) => row.hotC.toFixed(1), sort: (row) => row.hotC, numeric: true },
]

export function TablesGallery(): ReactNode {
  const [selected, setSelected] = useState<string | undefined>('b')
  const [checked, setChecked] = useState<ReadonlySet<string>>(new Set(['a']))
  return (
    <>
      <Section title="Results on riser C">
        <DataTable
          caption="5 results, the highest count first"
          rows={ROWS}
          rowId={(row) => row.id}
          columns={COLUMNS}
          initialSort={{ column: 'count', descending: true }}
          selectedId={selected}
          onSelect={setSelected}
          checked={checked}
          onCheck={setChecked}
          lit={new Set(['d'])}
        />
      </Section>
      <Section title="Facts">
        <KeyValue
          facts={[
            { key: 'Supply', value: 'chloramine, 1.9 mg/L', note: 'told' },
            { key: 'Storage heaters', value: '2 × 1000 L', note: 'seen' },
            { key: 'Recirculation', value: 'risers A to D', note: 'drawn' },
          ]}
        />
      </Section>
    </>
  )
}
