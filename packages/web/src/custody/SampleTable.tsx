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
  readonly onSplit?: ((sample: SampleCustody) => void) | undefined
  readonly onReceipt?: ((label: string) => void) | undefined
  readonly checked?: ReadonlySet<string> | undefined
  readonly onCheck?: ((checked: ReadonlySet<string>) => void) | undefined
  readonly empty?: ReactNode
}): ReactNode {
  const { samples, onTakeOut, onSplit, onReceipt } = props
  const arrived = samples.some(({ condition }) => condition !== undefined)
  return (
    <DataTable
      caption={props.caption}
      captionHidden
      rows={samples}
      rowId={({ label }) => label}
      columns={[
        ...COLUMNS,
        ...(arrived ? [CONDITION] : []),
        ...(onTakeOut === undefined && onSplit === undefined && onReceipt === undefined
          ? []
          : [acts({ onTakeOut, onSplit, onReceipt })]),
      ]}
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
    cell: ({ label, splitOf, parts }) => (
      <span>
        <span className="mono sample-label">{label}</span>
        {splitOf !== undefined && (
          <span className="faint sample-part">
            part of {splitOf.label} for {splitOf.to.name}
          </span>
        )}
        {parts.length > 0 && <span className="faint sample-part">divided: {parts.join(', ')}</span>}
      </span>
    ),
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
  cell: ({ condition, conditionNotes, rejected }) =>
    condition === undefined || condition === 'accepted' ? (
      <span className="quiet">{condition ?? 'not yet'}</span>
    ) : (
      <Tag shape="cross" kind="bad">
        {[condition, conditionNotes].filter((part) => part !== undefined).join(': ')}
        {rejected && ', rejected'}
      </Tag>
    ),
  sort: ({ condition }) => (condition === 'accepted' ? 'zz' : condition),
}

interface RowActs {
  readonly onTakeOut: ((label: string) => void) | undefined
  readonly onSplit: ((sample: SampleCustody) => void) | undefined
  readonly onReceipt: ((label: string) => void) | undefined
}

const acts = ({ onTakeOut, onSplit, onReceipt }: RowActs): Column<SampleCustody> => ({
  id: 'acts',
  head: 'Act',
  cell: (sample) => (
    <span className="sample-acts">
      {onTakeOut !== undefined && (
        <Button kind="text" name={`Take out ${sample.label}`} onPress={() => onTakeOut(sample.label)}>
          Take out
        </Button>
      )}
      {onSplit !== undefined && (
        <Button kind="text" name={`Split ${sample.label}`} onPress={() => onSplit(sample)}>
          Split
        </Button>
      )}
      {onReceipt !== undefined && (
        <Button kind="text" name={`Receipt to keep of ${sample.label}`} onPress={() => onReceipt(sample.label)}>
          Receipt
        </Button>
      )}
    </span>
  ),
})
