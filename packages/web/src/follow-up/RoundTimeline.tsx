import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import type { ReactNode } from 'react'
import { Legend, type LegendItem } from '../kit/Legend.tsx'
import type { RoundTimelineModel, TimelineMark } from './round-timeline.ts'

const WIDTH = 780
const LEFT = 24
const RIGHT = 40
const LINE_Y = 74
const HEIGHT = 120

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
  return (
    <>
      {/* oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a region that scrolls must be reachable by keyboard */}
      <div className="rounds" role="region" aria-label="Rounds on a timeline" tabIndex={0}>
        <svg
          viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
          role="img"
          aria-label={model.marks.map(({ label }) => label).join('. ')}
        >
          {model.months.map(({ on, name }) => (
            <g key={on}>
              <line className="rounds-month" x1={x(on)} x2={x(on)} y1={LINE_Y - 12} y2={LINE_Y + 26} />
              <text x={x(on) + 4} y={HEIGHT - 8}>
                {name}
              </text>
            </g>
          ))}
          <line className="rounds-line" x1={LEFT} x2={WIDTH - RIGHT} y1={LINE_Y} y2={LINE_Y} />
          {model.marks.map((mark) => (
            <Window key={mark.key} mark={mark} x={x} />
          ))}
          {model.starts.map(({ on, words }, index) => (
            <g key={`${on} ${words}`} className="rounds-start">
              <line x1={x(on)} x2={x(on)} y1={22 + (index % 3) * 13} y2={LINE_Y + 12} />
              <text x={x(on) + 5} y={30 + (index % 3) * 13}>
                {words}
              </text>
            </g>
          ))}
          {inView && (
            <g className="rounds-today">
              <line x1={x(today)} x2={x(today)} y1={12} y2={LINE_Y + 26} />
              <text x={x(today) + 5} y={14}>
                today
              </text>
            </g>
          )}
          {model.marks.map((mark) => (
            <g
              key={mark.key}
              className={`rounds-mark rounds-${mark.state}`}
              transform={`translate(${x(mark.on)} ${LINE_Y})`}
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

function Window({ mark, x }: { readonly mark: TimelineMark; readonly x: (on: string) => number }): ReactNode {
  if (mark.window === undefined) return null
  const [from, to] = mark.window
  return <rect className="rounds-window" x={x(from)} width={Math.max(2, x(to) - x(from))} y={LINE_Y - 3} height={6} />
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
