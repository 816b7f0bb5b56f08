import { componentName } from '@rillmark/casebook/building/labels.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import {
  countedWords,
  figureWords,
  RANKINGS,
  type RankedPlace,
  type Ranking,
  rankedQuantity,
  rankingTitle,
  rankPlaces,
} from '@rillmark/casebook/conditions/rankings.ts'
import { showPredicted } from '@rillmark/casebook/conditions/shown-quantity.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Section } from '../kit/Section.tsx'
import { Select } from '../kit/Select.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { Looking } from './PredictedFace.tsx'
import { placeLine } from './place-line.ts'
import type { ShownPrediction } from './use-prediction.ts'

export interface RankedTableProps {
  readonly system: WaterSystem
  readonly shown: ShownPrediction
  readonly onPlace: (id: string) => void
  readonly onHover: (id: string | undefined) => void
  readonly onLook: (change: Partial<Looking>) => void
}

/** Where to look first, by the question asked: the worst on top, each with its figure and why. */
export function RankedTable({ system, shown, onPlace, onHover, onLook }: RankedTableProps): ReactNode {
  const { units } = usePreferences()
  const [ranking, setRanking] = useState<Ranking>('coolest-hot')
  const rows = useMemo(
    () => rankPlaces({ system, conditions: shown.conditions, ranking, units }),
    [system, shown, ranking, units],
  )
  const found = rows.filter((row) => row.counted).length
  const choose = (next: Ranking): void => {
    setRanking(next)
    onLook(lookedAt(next))
  }
  return (
    <Section title="Where to look first">
      <Select
        label="Ranked by"
        width="full"
        value={ranking}
        onChange={choose}
        choices={RANKINGS.map((id) => ({ id, label: rankingTitle(id, units) }))}
      />
      <DataTable
        // another order begins from its own top
        key={ranking}
        caption={`${rankingTitle(ranking, units)}: ${found} of ${rows.length} counted, where the water ${countedWords(ranking, units)}`}
        rows={rows}
        rowId={rowId}
        columns={columnsOf(system, { ranking, units })}
        onSelect={(id) => onPlace(placeOf(id))}
        onHover={(id) => onHover(id === undefined ? undefined : placeOf(id))}
        empty={<p className="quiet">No place of this kind is described.</p>}
        maxHeight="26rem"
      />
    </Section>
  )
}

/** The side first: ids have any sign in them. */
const rowId = ({ id, side }: RankedPlace): string => `${side} ${id}`
const placeOf = (row: string): string => row.slice(row.indexOf(' ') + 1)

/** What the drawing shows beside a ranking. */
function lookedAt(ranking: Ranking): Partial<Looking> {
  switch (ranking) {
    case 'warmest-cold':
      return { quantity: 'temperature', side: 'cold', slot: undefined, by: 'lowest' }
    case 'coolest-hot':
      return { quantity: 'temperature', side: 'hot', slot: undefined, by: 'highest' }
    case 'growth-band':
      return { quantity: 'temperature', side: 'hot', slot: undefined, by: 'mean' }
    case 'oldest':
      return { quantity: 'age', slot: undefined, by: 'mean' }
    case 'no-residual':
      return { quantity: 'residual', slot: undefined, by: 'mean' }
    case 'standing':
      return { quantity: 'standing', slot: undefined }
  }
}

function columnsOf(
  system: WaterSystem,
  { ranking, units }: { ranking: Ranking; units: DisplayUnits },
): readonly Column<RankedPlace>[] {
  const quantity = rankedQuantity(ranking)
  const said = (value: number): string => showPredicted(value, { quantity, units }).text
  const parts = new Map(system.components.map((one) => [one.id, one]))
  const sided = ranking !== 'warmest-cold' && ranking !== 'coolest-hot'
  return [
    {
      id: 'place',
      head: 'Place',
      sort: ({ name }) => name,
      cell: (row) => {
        const part = parts.get(row.id)
        return (
          <span className="ranked-place">
            <span>
              {part === undefined ? row.id : componentName(part)}
              {sided && `, ${row.side}`}
            </span>
            <span className="faint">{part === undefined ? '' : placeLine(part, system)}</span>
          </span>
        )
      },
    },
    {
      id: 'figure',
      head: figureWords(ranking, units),
      numeric: true,
      sort: ({ value }) => value,
      cell: (row) => (
        <span className="ranked-figure">
          <span>
            {row.atLeast === true && '≥ '}
            {said(row.value)}
          </span>
          {row.range !== undefined && said(row.range.lower) !== said(row.range.upper) && (
            <span className="faint">
              {said(row.range.lower)} to {said(row.range.upper)}
            </span>
          )}
        </span>
      ),
    },
    { id: 'why', head: 'Why', cell: ({ why }) => <span className="ranked-why">{why}</span> },
  ]
}
