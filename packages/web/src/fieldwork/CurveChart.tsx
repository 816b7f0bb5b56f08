import { showTemperature } from '@rillmark/casebook/units/display.ts'
import type { TemperatureCurve } from '@rillmark/casebook/fieldwork/kinds.ts'
import { thresholdFor } from '@rillmark/casebook/fieldwork/figures.ts'
import type { ReactNode } from 'react'
import { usePreferences } from '../store/preferences.tsx'
import { curveScale } from './curve.ts'

const WIDTH = 358
const HEIGHT = 150
const LEFT = 46
const TOP = 22

/** Temperature against time, with the threshold as a dashed line and the steady stretch as a bracket. */
export function CurveChart(props: {
  readonly points: TemperatureCurve['points']
  readonly steady: TemperatureCurve['steady'] | undefined
  readonly quantity: 'hot-temperature' | 'cold-temperature'
  readonly withThreshold: boolean
}): ReactNode {
  const { points, steady, quantity } = props
  const { units } = usePreferences()
  const { temperatureC } = thresholdFor(quantity)
  const { x, y, ticksC, endSeconds } = curveScale(points, {
    width: WIDTH - 8,
    height: HEIGHT,
    thresholdC: temperatureC,
    left: LEFT,
  })
  const show = (celsius: number): string => showTemperature(celsius, units).text
  const last = points.at(-1)
  const said =
    last === undefined
      ? 'no reading yet'
      : `${points.length} readings, the last ${showTemperature(last.temperatureC, units).words} at ${last.seconds} s`
  return (
    <svg
      className="curve"
      viewBox={`0 0 ${WIDTH} ${HEIGHT + TOP + 26}`}
      role="img"
      aria-label={`Temperature over time: ${said}`}
      data-quantity={quantity}
    >
      <g transform={`translate(0 ${TOP})`}>
        {ticksC.map((tick, index) => (
          <g key={tick}>
            <line className="curve-grid" x1={LEFT} x2={WIDTH} y1={y(tick)} y2={y(tick)} />
            <text className="curve-text" x={0} y={y(tick) + 4}>
              {index === 0 ? `${show(tick)} ${units.temperature}` : show(tick)}
            </text>
          </g>
        ))}
        {props.withThreshold && (
          <line className="curve-threshold" x1={LEFT} x2={WIDTH} y1={y(temperatureC)} y2={y(temperatureC)} />
        )}
        <polyline
          className="curve-line"
          points={points.map((point) => `${x(point.seconds)},${y(point.temperatureC)}`).join(' ')}
        />
        {points.map((point) => (
          <circle
            key={point.seconds}
            className="curve-dot"
            cx={x(point.seconds)}
            cy={y(point.temperatureC)}
            r={point === last ? 5 : 3}
          />
        ))}
        {steady !== undefined && (
          <SteadyBracket from={x(steady.fromSeconds)} to={x(steady.toSeconds)} y={y(steady.temperatureC) - 14} />
        )}
        <SecondsAxis endSeconds={endSeconds} x={x} />
      </g>
    </svg>
  )
}

function SecondsAxis(props: { readonly endSeconds: number; readonly x: (seconds: number) => number }): ReactNode {
  const { endSeconds, x } = props
  return [0, endSeconds / 2, endSeconds].map((seconds) => (
    <text
      key={seconds}
      className="curve-text"
      x={x(seconds)}
      y={HEIGHT + 20}
      textAnchor={seconds === 0 ? 'start' : seconds === endSeconds ? 'end' : 'middle'}
    >
      {seconds} s
    </text>
  ))
}

function SteadyBracket({ from, to, y }: { readonly from: number; readonly to: number; readonly y: number }): ReactNode {
  return (
    <g className="curve-steady">
      <path d={`M${from} ${y - 6}v24M${from} ${y}H${to}M${to} ${y - 6}v24`} />
      <text x={from + 4} y={y - 8}>
        steady
      </text>
    </g>
  )
}
