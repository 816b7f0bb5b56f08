import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import type { ReactNode } from 'react'
import { Legend, type LegendItem } from '../kit/Legend.tsx'
import type { RoundTimelineModel, TimelineMark } from './round-timeline.ts'
import { type PlacedUpright, placeUprights, type Upright, wordsSpan } from './upright-labels.ts'

const WIDTH = 780
const LEFT = 24
const RIGHT = 40
const TOP = 14
const ROW = 15
/** from the line down to the names of the months */
const BELOW = 46

const MEANINGS: readonly LegendItem[] = [
  { shape: 'full', label: 'negative' },
  { shape: 'half', label: 'sampled, awaiting the laboratory' },
  { shape: 'open', label: 'to come' },
  { shape: 'square', label: 'due' },
  { shape: 'triangle', label: 'late' },
  { shape: 'cross', label: 'positive, or counted for no round' },
]

/** The rounds along the days: windows as bars on the line, marks by state, starts of the clock and today as uprights. The table below says the same. */
export function RoundTimeline({
  model,
  today,
}: {
  readonly model: RoundTimelineModel
  readonly today: string
}): ReactNode {
  const x = (on: string): number => LEFT + (daysBetween(model.from, on) / model.totalDays) * (WIDTH - LEFT - RIGHT)
  const inView = today >= model.from && today <= model.to
  const lines = [
    ...(inView ? [{ x: x(today), words: 'today', kind: 'today' }] : []),
    ...model.starts.map(({ on, words }) => ({ x: x(on), words, kind: 'start' })),
  ]
  const uprights = placeUprights(lines, WIDTH)
  const rows = Math.max(0, ...uprights.map(({ row }) => row + 1))
  const lineY = TOP + rows * ROW + 17
  const height = lineY + BELOW
  return (
    <>
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a region that scrolls must be reachable by keyboard */}
      <div className="rounds" role="region" aria-label="Rounds on a timeline" tabIndex={0}>
        <svg
          viewBox={`0 0 ${WIDTH} ${height}`}
          role="img"
          aria-label={model.marks.map(({ label }) => label).join('. ')}
        >
          {model.months.map(({ on, name }) => (
            <g key={on}>
              <line className="rounds-month" x1={x(on)} x2={x(on)} y1={lineY - 12} y2={lineY + 26} />
              <text x={x(on) + 4} y={height - 8}>
                {name}
              </text>
            </g>
          ))}
          <line className="rounds-line" x1={LEFT} x2={WIDTH - RIGHT} y1={lineY} y2={lineY} />
          {model.marks.map((mark) => (
            <Window key={mark.key} mark={mark} x={x} lineY={lineY} />
          ))}
          {uprights.map((placed) => (
            <UprightLine key={`${placed.upright.x} ${placed.upright.words}`} placed={placed} lineY={lineY} />
          ))}
          {model.marks.map((mark) => (
            <g
              key={mark.key}
              className={`rounds-mark rounds-${mark.state}`}
              transform={`translate(${x(mark.on)} ${lineY})`}
            >
              <MarkShape state={mark.state} />
              <text y={24} textAnchor="middle">
                {mark.text}
              </text>
            </g>
          ))}
        </svg>
      </div>
      <Legend items={MEANINGS} />
    </>
  )
}

function UprightLine(props: {
  readonly placed: PlacedUpright<Upright & { readonly kind: string }>
  readonly lineY: number
}): ReactNode {
  const { upright, row, side } = props.placed
  const { x, words, kind } = upright
  const [from, to] = wordsSpan(props.placed)
  const bottom = props.lineY + (kind === 'today' ? 26 : 12)
  return (
    <g className={`rounds-${kind}`}>
      <line x1={x} x2={x} y1={TOP + row * ROW - 10} y2={bottom} />
      <text x={side === 'right' ? from : to} y={TOP + row * ROW} textAnchor={side === 'right' ? 'start' : 'end'}>
        {words}
      </text>
    </g>
  )
}

function Window(props: {
  readonly mark: TimelineMark
  readonly x: (on: string) => number
  readonly lineY: number
}): ReactNode {
  const { mark, x, lineY } = props
  if (mark.window === undefined) return null
  const [from, to] = mark.window
  return <rect className="rounds-window" x={x(from)} width={Math.max(2, x(to) - x(from))} y={lineY - 3} height={6} />
}

function MarkShape({ state }: { readonly state: TimelineMark['state'] }): ReactNode {
  switch (state) {
    case 'negative':
      return <circle className="rounds-full" r={6} />
    case 'sampled':
      return (
        <>
          <circle r={6} />
          <path className="rounds-full" d="M0-6a6 6 0 0 1 0 12z" />
        </>
      )
    case 'due':
      return <rect x={-6} y={-6} width={12} height={12} />
    case 'late':
      return <path d="M0-7 7 6H-7z" />
    case 'positive':
    case 'other':
      return <path className="rounds-cross" d="m-5-5 10 10m0-10-10 10" />
    case 'waiting':
      return <circle r={6} />
  }
}
