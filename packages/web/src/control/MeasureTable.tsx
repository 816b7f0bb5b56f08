import { counted } from '@rillmark/casebook/units/counted.ts'
import type { MeasureView } from '@rillmark/casebook/control/control-view.ts'
import { amountWords } from '@rillmark/casebook/control/target-words.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Tag, type TagProps } from '../kit/Tag.tsx'
import { usePreferences } from '../store/preferences.tsx'

const STATE_TAGS: Record<MeasureView['state'], Pick<TagProps, 'shape' | 'kind'>> = {
  ordered: { shape: 'open' },
  'in hand': { shape: 'half' },
  proved: { shape: 'full', kind: 'accent' },
  late: { shape: 'triangle', kind: 'bad' },
  'carried out': { shape: 'check', kind: 'accent' },
  partly: { shape: 'half', kind: 'warn' },
  dropped: { shape: 'cross', kind: 'faint' },
}

/** The measures of one stage: what and where, who by when, how far proved. */
export function MeasureTable(props: {
  readonly caption: string
  readonly measures: readonly MeasureView[]
  readonly selected: string | undefined
  readonly onSelect: (id: string) => void
}): ReactNode {
  return (
    <DataTable
      caption={props.caption}
      captionHidden
      rows={props.measures}
      rowId={({ id }) => id}
      selectedId={props.selected}
      onSelect={props.onSelect}
      columns={[
        { id: 'what', head: 'Measure', cell: ({ measure }) => measure.ordered.body.measure },
        { id: 'where', head: 'Where', cell: ({ measure }) => measure.ordered.body.where },
        { id: 'who', head: 'Who', cell: ({ measure }) => measure.ordered.body.owner },
        {
          id: 'due',
          head: 'By',
          cell: ({ measure }) => (
            <span className="control-one-line">
              {measure.ordered.body.dueOn ?? <span className="quiet">no date</span>}
            </span>
          ),
          sort: ({ measure }) => measure.ordered.body.dueOn,
        },
        { id: 'target', head: 'Target', cell: ({ measure }) => <Target measure={measure} /> },
        { id: 'proved', head: 'Proved', cell: (view) => <span className="control-one-line">{provedWords(view)}</span> },
        { id: 'state', head: 'State', cell: (view) => <MeasureState view={view} /> },
      ]}
    />
  )
}

function Target({ measure }: Pick<MeasureView, 'measure'>): ReactNode {
  const { units } = usePreferences()
  const { target } = measure.ordered.body
  return target === undefined ? <span className="quiet">none</span> : amountWords(target, units)
}

/** How a measure stands, as mark and words. */
function MeasureState({ view }: { readonly view: MeasureView }): ReactNode {
  const { state, daysLate } = view
  const words = state === 'late' ? `${counted(daysLate, 'day')} late` : state
  return <Tag {...STATE_TAGS[state]}>{words}</Tag>
}

function provedWords({ places, reached, measure, mustBeProved }: MeasureView): string {
  if (places.length > 0 && (mustBeProved || measure.proofs.length > 0)) return `${reached} of ${places.length}`
  return measure.proofs.length === 0 ? '–' : `${measure.proofs.length} noted`
}
