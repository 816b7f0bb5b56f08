import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { showTemperature } from '@rillmark/casebook/units/display.ts'
import type { ReactNode } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { traceScale } from './trace-scale.ts'

const WIDTH = 420
const HEIGHT = 130
const LEFT = 48
const TOP = 14
const BELOW = 26

export interface TraceChartProps {
  readonly points: readonly { readonly atMs: number; readonly temperatureC: number }[]
  readonly usualSeconds: number | undefined
  readonly offset: string
  readonly range: { readonly lowestC: number; readonly highestC: number } | undefined
}

/** What a logger kept: the line, broken at gaps, the range as a band; the readings in a table behind it. */
export function TraceChart({ points, usualSeconds, offset, range }: TraceChartProps): ReactNode {
  const { units } = usePreferences()
  const scale = traceScale(points, { usualSeconds, range, left: LEFT, right: WIDTH - 6, height: HEIGHT })
  if (scale === undefined) return null
  const clock = (atMs: number): string => wallClock({ instant: new Date(atMs).toISOString(), offset })
  const [first, last] = [points[0], points.at(-1)]
  const words = (celsius: number): string => showTemperature(celsius, units).words
  return (
    <figure className="trace">
      <svg
        viewBox={`0 0 ${WIDTH} ${TOP + HEIGHT + BELOW}`}
        role="img"
        aria-label={`Temperature of the logger from ${clock(first?.atMs ?? 0)} to ${clock(last?.atMs ?? 0)}: ${words(scale.coldestC)} to ${words(scale.warmestC)}`}
      >
        <g transform={`translate(0 ${TOP})`}>
          {scale.band !== undefined && (
            <rect
              className="trace-band"
              x={LEFT}
              width={WIDTH - 6 - LEFT}
              y={scale.band.top}
              height={scale.band.height}
            />
          )}
          {scale.ticksC.map((tick, index) => (
            <g key={tick}>
              <line className="trace-grid" x1={LEFT} x2={WIDTH - 6} y1={scale.y(tick)} y2={scale.y(tick)} />
              <text className="trace-text" x={0} y={scale.y(tick) + 4}>
                {showTemperature(tick, units).text}
                {index === 0 && ` ${units.temperature}`}
              </text>
            </g>
          ))}
          {scale.lines.map((line) => (
            <polyline key={line} className="trace-line" points={line} />
          ))}
          <text className="trace-text" x={LEFT} y={HEIGHT + 18}>
            {clock(first?.atMs ?? 0)}
          </text>
          <text className="trace-text" x={WIDTH - 6} y={HEIGHT + 18} textAnchor="end">
            {clock(last?.atMs ?? 0)}
          </text>
        </g>
      </svg>
      <Disclosure summary={`The ${points.length} readings as a table`}>
        <DataTable
          caption="Readings of the logger"
          captionHidden
          rows={points}
          rowId={({ atMs }) => String(atMs)}
          columns={[
            { id: 'at', head: 'Local time', cell: ({ atMs }) => clock(atMs), sort: ({ atMs }) => atMs },
            {
              id: 'temperature',
              head: 'Temperature',
              cell: ({ temperatureC }) => words(temperatureC),
              sort: ({ temperatureC }) => temperatureC,
              numeric: true,
            },
          ]}
        />
      </Disclosure>
    </figure>
  )
}
