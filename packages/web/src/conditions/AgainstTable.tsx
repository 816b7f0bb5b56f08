import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { type AgainstReading, againstReadings } from '@rillmark/casebook/conditions/against-readings.ts'
import { clockOf } from '@rillmark/casebook/conditions/clock-of.ts'
import { showPredicted } from '@rillmark/casebook/conditions/shown-quantity.ts'
import { readingWords } from '@rillmark/casebook/findings/reading-layer.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type ReactNode, useMemo } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Section } from '../kit/Section.tsx'
import { Tag } from '../kit/Tag.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { ShownPrediction } from './use-prediction.ts'

/** What was read here, beside what was predicted for the same water at that time of day. */
export function AgainstTable(props: {
  readonly system: WaterSystem
  readonly shown: ShownPrediction
  readonly component: string
}): ReactNode {
  const { shown, component, system } = props
  const { state, version } = useInvestigation()
  const { units } = usePreferences()
  const rows = useMemo(
    () => againstReadings({ state, system, conditions: shown.conditions, series: shown.series, component }),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
    [version, system, shown, component],
  )
  return (
    <Section title="Predicted against read">
      <DataTable
        caption="Readings taken here, each beside the prediction for its time of day"
        captionHidden
        rows={rows}
        rowId={({ entry }) => entry.id}
        columns={columnsOf(units, shown.series !== undefined)}
        empty={<p className="quiet">Nothing was read here yet. Temperatures and residuals of Fieldwork appear here.</p>}
      />
      {rows.length > 0 && (
        <p className="faint">
          A reading after running is of the water that came up the pipe, not of what stood in it: a difference may be
          the way it was taken.
        </p>
      )}
    </Section>
  )
}

const MINUTES_A_DAY = 1440

function columnsOf(units: DisplayUnits, curves: boolean): readonly Column<AgainstReading>[] {
  const said = (row: AgainstReading, value: number): string =>
    showPredicted(value, { quantity: row.quantity, units }).text
  return [
    {
      id: 'read',
      head: 'Read',
      cell: ({ entry, minute }) => (
        <span className="ranked-place">
          <span>{readingWords(entry, units)}</span>
          <span className="faint">at {clockOf(minute, MINUTES_A_DAY)}</span>
        </span>
      ),
    },
    {
      id: 'predicted',
      head: curves ? 'Predicted then' : 'Predicted, mean',
      numeric: true,
      cell: (row) => (
        <span className="ranked-figure">
          <span>{showPredicted(row.predicted, { quantity: row.quantity, units }).words}</span>
          <span className="faint">
            day {said(row, row.lowest)} to {said(row, row.highest)}
          </span>
        </span>
      ),
    },
    {
      id: 'verdict',
      head: 'Agrees',
      cell: ({ within }) =>
        within === undefined ? null : within ? (
          <Tag shape="check">within the day</Tag>
        ) : (
          <Tag shape="triangle" kind="warn">
            outside the day
          </Tag>
        ),
    },
  ]
}
