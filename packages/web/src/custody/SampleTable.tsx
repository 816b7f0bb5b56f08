import type { SampleCustody } from '@rillmark/casebook/custody/sample-custody.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Tag } from '../kit/Tag.tsx'
import { holdTag } from './hold-words.ts'

/** Samples with where they came from, how long they have left, and how they arrived. */
export function SampleTable(props: {
  readonly caption: string
  readonly samples: readonly SampleCustody[]
  readonly onTakeOut?: ((label: string) => void) | undefined
  readonly checked?: ReadonlySet<string> | undefined
  readonly onCheck?: ((checked: ReadonlySet<string>) => void) | undefined
  readonly empty?: ReactNode
}): ReactNode {
  const { samples, onTakeOut } = props
  const arrived = samples.some(({ condition }) => condition !== undefined)
  return (
    <DataTable
      caption={props.caption}
      captionHidden
      rows={samples}
      rowId={({ label }) => label}
      columns={[...COLUMNS, ...(arrived ? [CONDITION] : []), ...(onTakeOut === undefined ? [] : [takeOut(onTakeOut)])]}
      checked={props.checked}
      onCheck={props.onCheck}
      empty={props.empty}
    />
  )
}

const COLUMNS: readonly Column<SampleCustody>[] = [
  {
    id: 'label',
    head: 'Label',
    cell: ({ label }) => <span className="mono">{label}</span>,
    sort: ({ label }) => label,
  },
  { id: 'place', head: 'Place', cell: ({ place }) => place, sort: ({ place }) => place },
  { id: 'kind', head: 'Kind', cell: ({ kindWords }) => kindWords, sort: ({ kindWords }) => kindWords },
  {
    id: 'collected',
    head: 'Collected',
    cell: ({ collectedAt, offset }) => wallClock({ instant: collectedAt, offset }),
    sort: ({ collectedAt }) => collectedAt,
  },
  {
    id: 'hold',
    head: 'Hold time',
    cell: (sample) => {
      const { shape, kind, words } = holdTag(sample)
      return (
        <Tag shape={shape} kind={kind}>
          {words}
        </Tag>
      )
    },
    sort: ({ leftMs }) => leftMs,
  },
]

const CONDITION: Column<SampleCustody> = {
  id: 'condition',
  head: 'On arrival',
  cell: ({ condition, conditionNotes }) =>
    condition === undefined || condition === 'accepted' ? (
      <span className="quiet">{condition ?? 'not yet'}</span>
    ) : (
      <Tag shape="cross" kind="bad">
        {[condition, conditionNotes].filter((part) => part !== undefined).join(': ')}
      </Tag>
    ),
  sort: ({ condition }) => (condition === 'accepted' ? 'zz' : condition),
}

const takeOut = (onTakeOut: (label: string) => void): Column<SampleCustody> => ({
  id: 'out',
  head: 'Act',
  cell: ({ label }) => (
    <Button kind="text" name={`Take out ${label}`} onPress={() => onTakeOut(label)}>
      Take out
    </Button>
  ),
})
