import { ageIsLeast } from '@rillmark/casebook/conditions/age-is-least.ts'
import { QUANTITY_TITLES, type ShownQuantity, showPredicted } from '@rillmark/casebook/conditions/shown-quantity.ts'
import type { PlaceConditions } from '@rillmark/casebook/conditions/conditions.ts'
import { GROWTH_BAND, temperatureBandWords } from '@rillmark/casebook/findings/temperature-band.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'
import type { ReactNode } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { WaterLine } from './place-lines.ts'

interface Row {
  readonly id: string
  readonly words: string
  readonly cells: readonly ReactNode[]
}

/** The figures of the day, a column for each water. */
export function PlaceFigures(props: {
  readonly lines: readonly WaterLine[]
  /** That of the supply is not described. */
  readonly residualUnknown: boolean
}): ReactNode {
  const { lines } = props
  const { units } = usePreferences()
  const columns: readonly Column<Row>[] = [
    { id: 'what', head: 'Over the day', cell: ({ words }) => words },
    ...lines.map(
      ({ words }, at): Column<Row> => ({
        id: words,
        head: capital(words),
        numeric: true,
        cell: ({ cells }) => cells[at],
      }),
    ),
  ]
  return (
    <DataTable
      caption="Mean, with the lowest and highest of the day"
      rows={rowsOf(lines, { ...props, units })}
      rowId={({ id }) => id}
      columns={columns}
    />
  )
}

function rowsOf(
  lines: readonly WaterLine[],
  { units, residualUnknown }: { units: DisplayUnits; residualUnknown: boolean },
): Row[] {
  const row = (id: string, given: { words: string; cell: (place: PlaceConditions) => ReactNode }): Row => ({
    id,
    words: given.words,
    cells: lines.map(({ place }) => given.cell(place)),
  })
  const hours = (value: number): string => showPredicted(value, { quantity: 'age', units }).words
  const spread = (quantity: ShownQuantity, key: 'temperatureC' | 'ageHours' | 'residualMgPerL'): Row =>
    row(quantity, {
      words: QUANTITY_TITLES[quantity],
      cell: (place) => (
        <SpreadWords {...{ quantity, units, ...place[key] }} atLeast={quantity === 'age' && ageIsLeast(place)} />
      ),
    })
  return [
    spread('temperature', 'temperatureC'),
    spread('age', 'ageHours'),
    residualUnknown
      ? row('residual', { words: QUANTITY_TITLES.residual, cell: () => 'supply not described' })
      : spread('residual', 'residualMgPerL'),
    row('band', {
      words: `At ${temperatureBandWords(GROWTH_BAND, units)}`,
      cell: ({ hoursInGrowthBand }) => hours(hoursInGrowthBand),
    }),
    row('standing', {
      words: 'Longest without flow',
      cell: ({ longestStagnationHours, neverMoves }) =>
        neverMoves === true ? 'always' : hours(longestStagnationHours),
    }),
    row('growth', {
      words: 'Growth index, 0 to 1',
      cell: ({ growthIndex }) => showPredicted(growthIndex, { quantity: 'growth' }).text,
    }),
  ]
}

function SpreadWords(props: {
  readonly quantity: ShownQuantity
  readonly units: DisplayUnits
  readonly mean: number
  readonly min: number
  readonly max: number
  readonly atLeast: boolean
}): ReactNode {
  const { quantity, units, mean, min, max, atLeast } = props
  const said = (value: number): string => showPredicted(value, { quantity, units }).text
  const { words } = showPredicted(mean, { quantity, units })
  if (atLeast) return `at least ${words}`
  return (
    <span className="ranked-figure">
      <span>{words}</span>
      {said(min) !== said(max) && (
        <span className="faint">
          {said(min)} to {said(max)}
        </span>
      )}
    </span>
  )
}
