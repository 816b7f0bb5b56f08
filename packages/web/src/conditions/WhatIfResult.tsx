import { componentName } from '@rillmark/casebook/building/labels.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { CountDifference, PlaceDifference } from '@rillmark/casebook/conditions/compare-conditions.ts'
import { showPredicted } from '@rillmark/casebook/conditions/shown-quantity.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Note } from '../kit/Note.tsx'
import { Select } from '../kit/Select.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { COMPARED, type Compared, type ComparedBy, comparedLabel } from './compared.ts'
import type { ChangedDay, WhatIfInHand } from './use-what-if.ts'

export interface WhatIfResultProps {
  readonly system: WaterSystem
  readonly changed: ChangedDay
  readonly whatIf: WhatIfInHand
  readonly onPlace: (id: string) => void
  readonly onHover: (id: string | undefined) => void
}

/** Before and after: how many outlets are counted, and which places change most. */
export function WhatIfResult({ system, changed, whatIf, onPlace, onHover }: WhatIfResultProps): ReactNode {
  const { units } = usePreferences()
  const [by, setBy] = useState<ComparedBy>('hottest-hot')
  const rows = useMemo(() => changedMost(changed, COMPARED[by]), [changed, by])
  const parts = useMemo(() => new Map(system.components.map((one) => [one.id, componentName(one)])), [system])
  return (
    <div className="stack">
      {whatIf.changes !== changed.changes && <Note>What follows is of the changes as they were last worked out.</Note>}
      <DataTable
        caption="Outlets counted, as it is and with the changes"
        rows={changed.comparison.counts}
        rowId={({ counted }) => counted}
        columns={COUNT_COLUMNS}
      />
      <Select
        label="Where it changes most, by"
        width="full"
        value={by}
        onChange={setBy}
        choices={(Object.keys(COMPARED) as ComparedBy[]).map((id) => ({ id, label: comparedLabel(id, units) }))}
      />
      <DataTable
        key={by}
        caption={`${rows.length} waters of ${changed.comparison.places.length} change`}
        rows={rows}
        rowId={({ id, water }) => `${water} ${id}`}
        columns={placeColumns(COMPARED[by], { units, nameOf: (id) => parts.get(id) ?? id })}
        onSelect={(id) => onPlace(id.slice(id.indexOf(' ') + 1))}
        onHover={(id) => onHover(id?.slice(id.indexOf(' ') + 1))}
        empty={<p className="quiet">No water changes by as much as could be shown.</p>}
        maxHeight="20rem"
      />
    </div>
  )
}

const COUNT_COLUMNS: readonly Column<CountDifference>[] = [
  { id: 'words', head: 'Outlets with', cell: ({ words }) => words },
  { id: 'before', head: 'As it is', numeric: true, cell: ({ before }) => before },
  {
    id: 'after',
    head: 'Changed',
    numeric: true,
    cell: ({ before, after }) => <Arrowed before={before} after={after} text={String(after)} />,
  },
]

/** A figure with the way it went, in a sign that can be heard. */
function Arrowed({ before, after, text }: { readonly before: number; readonly after: number; readonly text: string }) {
  if (after === before) return <span className="quiet">{text}</span>
  const up = after > before
  return (
    <b>
      <span aria-hidden="true">{up ? '↑ ' : '↓ '}</span>
      <span className="visually-hidden">{up ? 'more: ' : 'fewer or less: '}</span>
      {text}
    </b>
  )
}

/** Places whose figure changes by more than its last place, the largest change first; a water that is gone comes first. */
function changedMost({ comparison }: ChangedDay, { of, sides, shows }: Compared): readonly PlaceDifference[] {
  const change = ({ before, after }: PlaceDifference): number =>
    before === undefined || after === undefined ? Number.POSITIVE_INFINITY : Math.abs(of(after) - of(before))
  return comparison.places
    .filter((one) => sides.includes(one.water) && change(one) >= shows)
    .toSorted((a, b) => {
      const [first, second] = [change(a), change(b)]
      return first === second ? 0 : second - first
    })
}

function placeColumns(
  { of, quantity }: Compared,
  { units, nameOf }: { units: DisplayUnits; nameOf: (id: string) => string },
): readonly Column<PlaceDifference>[] {
  const said = (value: number): string => showPredicted(value, { quantity, units }).text
  return [
    {
      id: 'place',
      head: 'Place',
      sort: ({ id }) => nameOf(id),
      cell: ({ id, water }) => `${nameOf(id)}, ${water}`,
    },
    {
      id: 'before',
      head: 'As it is',
      numeric: true,
      sort: ({ before }) => (before === undefined ? undefined : of(before)),
      cell: ({ before }) => (before === undefined ? 'none' : said(of(before))),
    },
    {
      id: 'after',
      head: 'Changed',
      numeric: true,
      sort: ({ after }) => (after === undefined ? undefined : of(after)),
      cell: ({ before, after }) =>
        after === undefined ? (
          'taken out'
        ) : (
          <Arrowed before={before === undefined ? Number.NaN : of(before)} after={of(after)} text={said(of(after))} />
        ),
    },
  ]
}
