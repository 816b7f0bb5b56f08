import type { LikelyExposure } from '@rillmark/casebook/cases/likely-exposure.ts'
import { addDays, daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import type { ReactNode } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import type { Stay, Timeline as Model, TimelineRow } from './timeline-model.ts'

const DAY_PX = 14
const LABEL_PX = 104
const STAY_PX = 16
const TOP_PX = 34
const ROW_PAD_PX = 16

export interface TimelineProps {
  readonly timeline: Model
  /** when one source would have exposed all */
  readonly likely?: LikelyExposure | undefined
  readonly selected: string | undefined
  readonly onSelect: (code: string) => void
  /** place lit from the list of shared places */
  readonly lit: string | undefined
  readonly onLight: (place: string | undefined) => void
}

/** Stays and onsets by day, with the incubation window as a shade whose depth is the chance of that day. */
export function Timeline(props: TimelineProps): ReactNode {
  const { timeline } = props
  const width = LABEL_PX + timeline.days * DAY_PX + 8
  const tops: number[] = []
  let height = TOP_PX
  for (const row of timeline.rows) {
    tops.push(height)
    height += rowHeight(row)
  }
  return (
    <div
      className="timeline"
      // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a region that scrolls must be reachable by keyboard
      tabIndex={0}
      role="region"
      aria-label="Timeline of stays and onsets; the same is in the table of cases"
    >
      <svg width={width} height={height + 4} role="img" aria-label={wordsFor(timeline)}>
        <Weeks timeline={timeline} height={height} />
        {props.likely !== undefined && <Band likely={props.likely} timeline={timeline} height={height} />}
        {timeline.rows.map((row, index) => (
          <g key={row.window.code} transform={`translate(0 ${tops[index] ?? 0})`}>
            <CaseRow row={row} {...props} />
          </g>
        ))}
      </svg>
    </div>
  )
}

/** What the marks of the timeline mean. */
export function TimelineKey({ isBanded }: { readonly isBanded: boolean }): ReactNode {
  return (
    <ul className="timeline-key">
      <li>
        <span className="timeline-key-shade" /> incubation window: the deeper, the likelier the day (
        <CalculatorLink id="incubation">how it is worked out</CalculatorLink>)
      </li>
      <li>
        <span className="timeline-key-stay" /> stay or use of water
      </li>
      <li>
        <span className="timeline-key-onset">▼</span> onset
      </li>
      {isBanded && (
        <li>
          <span className="timeline-key-band" /> likeliest days, had all been exposed at one time
        </li>
      )}
    </ul>
  )
}

function Weeks({ timeline, height }: { readonly timeline: Model; readonly height: number }): ReactNode {
  const weeks = Array.from({ length: Math.ceil(timeline.days / 7) }, (_, index) => index * 7)
  return weeks.map((day) => (
    <g key={day}>
      <line className="timeline-week" x1={xOf(day)} x2={xOf(day)} y1={TOP_PX - 10} y2={height} />
      <text className="timeline-date" x={xOf(day)} y={TOP_PX - 16}>
        {shortDate(addDays(timeline.from, day))}
      </text>
    </g>
  ))
}

/** Lines round the days between which one exposure of all would lie; none where one time does not explain the onsets. */
function Band(props: {
  readonly likely: LikelyExposure
  readonly timeline: Model
  readonly height: number
}): ReactNode {
  const { likely, timeline, height } = props
  const first = Math.max(0, daysBetween(timeline.from, likely.from))
  const last = Math.min(timeline.days - 1, daysBetween(timeline.from, likely.to))
  if (likely.fits !== 'yes' || last < first) return null
  return (
    <rect
      className="timeline-band"
      x={xOf(first)}
      y={TOP_PX - 10}
      width={(last - first + 1) * DAY_PX}
      height={height - TOP_PX + 10}
    >
      <title>{`Had all been exposed at one time: ${likely.from} to ${likely.to}`}</title>
    </rect>
  )
}

function CaseRow({
  row,
  timeline,
  selected,
  onSelect,
  lit,
  onLight,
}: TimelineProps & { readonly row: TimelineRow }): ReactNode {
  const { code, entry, density } = row.window
  const height = rowHeight(row) - 8
  const onset = entry.body.onsetDate
  return (
    // oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-static-element-interactions -- the table of cases below is the keyboard's way
    <g className="timeline-case" data-selected={code === selected || undefined} onClick={() => onSelect(code)}>
      <rect className="timeline-hit" x={0} y={0} width={xOf(timeline.days)} height={height} />
      <text className="timeline-code" x={0} y={STAY_PX}>
        {code}
      </text>
      <text className="timeline-class" x={0} y={STAY_PX * 2 - 2}>
        {entry.body.classification}
      </text>
      {[...density].map(([date, chance]) => {
        const day = daysBetween(timeline.from, date)
        const inWindow =
          row.window.window !== undefined && date >= row.window.window.from && date <= row.window.window.to
        return day < 0 || !inWindow ? null : (
          <rect
            key={date}
            className="timeline-shade"
            x={xOf(day)}
            y={0}
            width={DAY_PX}
            height={height}
            opacity={0.1 + 0.9 * (chance / timeline.densest)}
          />
        )
      })}
      {row.stays.map((stay, index) => (
        <StayBar
          key={stay.id}
          stay={stay}
          y={index * STAY_PX + 4}
          timeline={timeline}
          lit={isSame(stay.place, lit)}
          onLight={onLight}
        />
      ))}
      {onset === undefined ? (
        <text className="timeline-class" x={LABEL_PX} y={STAY_PX}>
          onset not known: no window can be drawn
        </text>
      ) : (
        <g className="timeline-onset" transform={`translate(${xOf(daysBetween(timeline.from, onset)) + DAY_PX / 2} 0)`}>
          <line y1={0} y2={height} />
          <path d={`M -5 0 h 10 l -5 7 z`} />
          <title>{`${code}: onset ${onset}`}</title>
        </g>
      )}
    </g>
  )
}

function StayBar(props: {
  readonly stay: Stay
  readonly y: number
  readonly timeline: Model
  readonly lit: boolean
  readonly onLight: (place: string | undefined) => void
}): ReactNode {
  const { stay, y, timeline } = props
  const first = Math.max(0, daysBetween(timeline.from, stay.from))
  const last = Math.min(timeline.days - 1, daysBetween(timeline.from, stay.to))
  if (last < first) return null
  const openLeft = stay.from < timeline.from
  return (
    <g
      className="timeline-stay"
      data-lit={props.lit || undefined}
      onPointerEnter={() => props.onLight(stay.place)}
      onPointerLeave={() => props.onLight(undefined)}
    >
      <title>{`${stay.place}, ${stay.kind}, ${stay.from} to ${stay.to}`}</title>
      <rect x={xOf(first)} y={y} width={(last - first + 1) * DAY_PX - 2} height={STAY_PX - 5} />
      <text x={xOf(first) + 3} y={y + STAY_PX - 8}>
        {openLeft ? `‹ ${stay.place}` : stay.place}
      </text>
    </g>
  )
}

const rowHeight = ({ stays }: TimelineRow): number => Math.max(2, stays.length) * STAY_PX + ROW_PAD_PX
const xOf = (day: number): number => LABEL_PX + day * DAY_PX
const isSame = (place: string, lit: string | undefined): boolean =>
  lit !== undefined && place.trim().toLowerCase() === lit.trim().toLowerCase()

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']
const shortDate = (date: string): string => `${Number(date.slice(8))} ${MONTHS[Number(date.slice(5, 7)) - 1] ?? ''}`

function wordsFor({ rows, from, to }: Model): string {
  const lines = rows.map(
    ({ window: { code, entry }, stays }) =>
      `${code}, onset ${entry.body.onsetDate ?? 'not known'}, ${stays.length} stays or uses`,
  )
  return `Timeline from ${from} to ${to}. ${lines.join('. ')}.`
}
