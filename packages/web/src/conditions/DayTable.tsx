import { clockOf } from '@rillmark/casebook/conditions/clock-of.ts'
import { type ShownQuantity, showPredicted } from '@rillmark/casebook/conditions/shown-quantity.ts'
import type { ReactNode } from 'react'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { hourlyMeans } from './day-chart.ts'
import type { WaterLine } from './place-lines.ts'

interface Hour {
  readonly hour: number
  readonly values: readonly (number | undefined)[]
}

/** The figures behind the charts, hour by hour. */
export function DayTable(props: {
  readonly lines: readonly WaterLine[]
  readonly quantities: readonly ShownQuantity[]
}): ReactNode {
  const { lines, quantities } = props
  const { units } = usePreferences()
  const curves = lines.flatMap((line) =>
    quantities.map((quantity) => ({ line, quantity, means: meansOf(line, quantity) })),
  )
  const rows = Array.from(
    { length: 24 },
    (_, hour): Hour => ({ hour, values: curves.map(({ means }) => means?.[hour]) }),
  )
  const columns: readonly Column<Hour>[] = [
    { id: 'hour', head: 'From', cell: ({ hour }) => clockOf(hour, 24) },
    ...curves.map(({ line, quantity }, at): Column<Hour> => {
      const { unit } = showPredicted(0, { quantity, units })
      return {
        id: `${line.words} ${quantity}`,
        head: `${line.words} ${SHORT[quantity]}${unit === '' ? '' : ` ${unit}`}`,
        numeric: true,
        cell: ({ values }) => {
          const value = values[at]
          return value === undefined ? '' : showPredicted(value, { quantity, units }).text
        },
      }
    }),
  ]
  return (
    <Disclosure summary="The day hour by hour, in figures">
      <DataTable
        caption="Mean of each hour"
        rows={rows}
        rowId={({ hour }) => String(hour)}
        columns={columns}
        maxHeight="22rem"
      />
    </Disclosure>
  )
}

const SHORT: Readonly<Record<ShownQuantity, string>> = {
  temperature: '',
  age: 'age',
  residual: 'residual',
  growth: 'index',
  standing: 'standing',
}

function meansOf(line: WaterLine, quantity: ShownQuantity): number[] | undefined {
  const curve = line.curve(quantity)
  return curve === undefined ? undefined : hourlyMeans(curve)
}
