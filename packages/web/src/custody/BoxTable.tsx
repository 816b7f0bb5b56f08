import { showTemperature } from '@rillmark/casebook/units/display.ts'
import type { ConsignmentView } from '@rillmark/casebook/custody/custody-view.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Tag, type TagProps } from '../kit/Tag.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { holdTag } from './hold-words.ts'

const STAGE_SHAPES: Record<ConsignmentView['stage'], TagProps['shape']> = {
  'being packed': 'open',
  sealed: 'square',
  'on its way': 'half',
  received: 'check',
  'with the other party': 'check',
}

/** Every box: what it holds, who holds it, how long it has left, how warm it got. */
export function BoxTable(props: {
  readonly boxes: readonly ConsignmentView[]
  readonly selected: string | undefined
  readonly onSelect: (code: string) => void
}): ReactNode {
  return (
    <DataTable
      caption={`${props.boxes.length} consignments`}
      captionHidden
      rows={props.boxes}
      rowId={({ code }) => code}
      selectedId={props.selected}
      onSelect={props.onSelect}
      columns={[
        { id: 'code', head: 'Consignment', cell: ({ code }) => code, sort: ({ code }) => code },
        {
          id: 'stage',
          head: 'State',
          cell: ({ stage }) => <Tag shape={STAGE_SHAPES[stage]}>{stage}</Tag>,
          sort: ({ stage }) => stage,
        },
        { id: 'holder', head: 'Held by', cell: (box) => <Holder box={box} /> },
        { id: 'count', head: 'Samples', cell: ({ samples }) => samples.length, numeric: true },
        { id: 'hold', head: 'Hold time', cell: (box) => <BoxHold box={box} />, sort: ({ next }) => next?.deadlineMs },
        { id: 'warm', head: 'Coldest to warmest', cell: (box) => <BoxTemperature box={box} /> },
      ]}
    />
  )
}

function Holder({ box: { holder } }: { readonly box: ConsignmentView }): ReactNode {
  return (
    <span>
      {holder.name} <span className="quiet">{holder.role}</span>
    </span>
  )
}

function BoxHold({ box }: { readonly box: ConsignmentView }): ReactNode {
  const late = box.samples.filter(({ clock }) => clock === 'stopped late').length
  if (box.next === undefined) {
    if (box.stage !== 'received') return <span className="quiet">–</span>
    return late === 0 ? <Tag shape="check">all in time</Tag> : <Tag shape="triangle" kind="bad">{`${late} late`}</Tag>
  }
  const { shape, kind, words } = holdTag(box.next)
  return (
    <Tag shape={shape} kind={kind}>
      {words}
    </Tag>
  )
}

/** The range logged, in words when it left what the samples ask for. */
export function BoxTemperature({ box: { temperature } }: { readonly box: ConsignmentView }): ReactNode {
  const { units } = usePreferences()
  const { coldest, warmest, judgement } = temperature
  if (coldest === undefined || warmest === undefined) return <span className="quiet">not logged</span>
  const [low, high] = [showTemperature(coldest.temperatureC, units), showTemperature(warmest.temperatureC, units)]
  const range = low.text === high.text ? low.words : `${low.text} to ${high.words}`
  if (judgement === 'within') return <Tag shape="check">{range}</Tag>
  if (judgement === 'within, as far as measured') return <span>{`${range}, ${judgement}`}</span>
  if (judgement === 'no range') return range
  return <Tag shape="triangle" kind="bad">{`${range}, ${judgement}`}</Tag>
}
