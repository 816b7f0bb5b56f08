import { clockOf } from '@rillmark/casebook/conditions/clock-of.ts'
import {
  QUANTITY_TITLES,
  type ShownQuantity,
  shownValue,
  showPredicted,
  unitOf,
} from '@rillmark/casebook/conditions/shown-quantity.ts'
import { GROWTH_BAND } from '@rillmark/casebook/findings/temperature-band.ts'
import type { ReactNode } from 'react'
import { usePreferences } from '../store/preferences.tsx'
import { type DayScale, dayScale, stretches } from './day-chart.ts'
import type { WaterLine } from './place-lines.ts'

const WIDTH = 420
const HEIGHT = 118
const LEFT = 44
const RIGHT = WIDTH - 6
const TOP = 18
/** Room for the draws and the hours below the chart. */
const BELOW = 34
const HOURS = [0, 6, 12, 18, 24]
/** Less than this in a pipe is no draw. */
const LEAST_DRAW_L_PER_MIN = 0.01

export interface DayChartProps {
  readonly quantity: ShownQuantity
  readonly lines: readonly WaterLine[]
  readonly slots: number
  /** The span looked at on the drawing. */
  readonly slot: number | undefined
}

/** One quantity over the day: a line for each water, the draws below, the hour looked at as an upright line. */
export function DayChart({ quantity, lines, slots, slot }: DayChartProps): ReactNode {
  const { units } = usePreferences()
  const drawn = lines.flatMap((line) => {
    const curve = line.curve(quantity)
    if (curve === undefined) return []
    return [{ ...line, values: Array.from(curve, (value) => shownValue(value, { quantity, units })) }]
  })
  if (drawn.length === 0) return null
  const scale = dayScale(
    drawn.flatMap(({ values }) => values),
    {
      slots,
      left: LEFT,
      right: RIGHT,
      height: HEIGHT,
      fromZero: quantity !== 'temperature',
      leastSpread: LEAST_SPREAD[quantity],
    },
  )
  const unit = unitOf(quantity, units)
  const said = drawn.map(({ words, values }) => {
    const at = (value: number): string => `${value.toFixed(scale.decimals)} ${unit}`.trim()
    return `${words} from ${at(Math.min(...values))} to ${at(Math.max(...values))}`
  })
  return (
    <figure className="day-chart">
      <figcaption>{unit === '' ? QUANTITY_TITLES[quantity] : `${QUANTITY_TITLES[quantity]}, ${unit}`}</figcaption>
      <svg
        viewBox={`0 0 ${WIDTH} ${TOP + HEIGHT + BELOW}`}
        role="img"
        aria-label={`${QUANTITY_TITLES[quantity]} over the day: ${said.join('; ')}`}
      >
        <g transform={`translate(0 ${TOP})`}>
          {quantity === 'temperature' && <GrowthBand scale={scale} />}
          <Axes scale={scale} slots={slots} />
          {drawn.map(({ side, words, values }) => (
            <path key={words} className="day-line" data-side={side} d={lineThrough(values, scale)} />
          ))}
          {slot !== undefined && (
            <line className="day-now" x1={scale.x(slot + 0.5)} x2={scale.x(slot + 0.5)} y1={-6} y2={HEIGHT} />
          )}
          <Draws lines={drawn} scale={scale} />
        </g>
      </svg>
    </figure>
  )
}

/** Smaller changes than these stay small on the chart. */
const LEAST_SPREAD: Readonly<Record<ShownQuantity, number>> = {
  temperature: 8,
  age: 4,
  residual: 0.2,
  growth: 1,
  standing: 4,
}

/** Through the middle of each span. */
function lineThrough(values: readonly number[], { x, y }: DayScale): string {
  return values.map((value, at) => `${at === 0 ? 'M' : 'L'}${x(at + 0.5).toFixed(1)} ${y(value).toFixed(1)}`).join('')
}

function Axes({ scale, slots }: { readonly scale: DayScale; readonly slots: number }): ReactNode {
  const { x, y, ticks, decimals } = scale
  return (
    <>
      {ticks.map((tick) => (
        <g key={tick}>
          <line className="day-grid" x1={LEFT} x2={RIGHT} y1={y(tick)} y2={y(tick)} />
          <text className="day-text" x={LEFT - 6} y={y(tick) + 4} textAnchor="end">
            {tick.toFixed(decimals)}
          </text>
        </g>
      ))}
      {HOURS.map((hour) => (
        <text
          key={hour}
          className="day-text"
          x={x((hour * slots) / 24)}
          y={HEIGHT + 30}
          textAnchor={hour === 0 ? 'start' : hour === 24 ? 'end' : 'middle'}
        >
          {clockOf(hour, 24)}
        </text>
      ))}
    </>
  )
}

/** Where it grows is a shade, not a line to pass or fail. */
function GrowthBand({ scale }: { readonly scale: DayScale }): ReactNode {
  const { units } = usePreferences()
  const at = (celsius: number): number => scale.y(shownValue(celsius, { quantity: 'temperature', units }))
  const top = Math.max(0, at(GROWTH_BAND.below))
  const bottom = Math.min(HEIGHT, at(GROWTH_BAND.from))
  if (bottom <= top) return null
  const said = (celsius: number): string => showPredicted(celsius, { quantity: 'temperature', units, brief: true }).text
  return (
    <>
      <rect className="day-band" x={LEFT} width={RIGHT - LEFT} y={top} height={bottom - top} />
      {bottom - top > 14 && (
        <text className="day-band-text" x={LEFT + 6} y={top + 13}>
          {said(GROWTH_BAND.from)} to {said(GROWTH_BAND.below)}: growth
        </text>
      )}
    </>
  )
}

/** When water runs, a row of strokes for each side. */
function Draws({ lines, scale }: { readonly lines: readonly WaterLine[]; readonly scale: DayScale }): ReactNode {
  return lines.map(({ flow, side, words }, row) =>
    flow === undefined
      ? null
      : stretches(flow, LEAST_DRAW_L_PER_MIN).map(({ from, to }) => (
          <rect
            key={`${words} ${from}`}
            className="day-draw"
            data-side={side}
            x={scale.x(from)}
            width={Math.max(1.5, scale.x(to) - scale.x(from))}
            y={HEIGHT + 5 + row * 6}
            height={4}
          />
        )),
  )
}
