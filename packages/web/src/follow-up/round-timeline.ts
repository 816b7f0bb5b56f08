import type { FollowUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { daysBetween, type IsoDate } from '@rillmark/science/calendar/iso-date.ts'

export interface TimelineMark {
  readonly key: string
  readonly on: IsoDate
  readonly kind: 'round' | 'not counted'
  readonly state: 'waiting' | 'due' | 'late' | 'sampled' | 'negative' | 'positive' | 'other'
  readonly text: string
  readonly label: string
  /** the window in which it counts, for rounds still to be taken */
  readonly window?: readonly [IsoDate, IsoDate]
}

export interface RoundTimelineModel {
  readonly from: IsoDate
  readonly to: IsoDate
  readonly totalDays: number
  readonly marks: readonly TimelineMark[]
  /** days the clock started or started again */
  readonly starts: readonly { readonly on: IsoDate; readonly words: string }[]
  readonly months: readonly { readonly on: IsoDate; readonly name: string }[]
}

/** What the timeline draws: starts of the clock, rounds with their windows, samplings that counted for none. */
export function roundTimeline(view: FollowUpView): RoundTimelineModel | undefined {
  const { schedule, started } = view
  if (schedule === undefined || started === undefined) return undefined
  const marks = [...roundMarks(schedule.rounds), ...uncounted(schedule.notCounted)]
  const starts = startsOf(view)
  const days = [...marks.flatMap(({ on, window }) => [on, ...(window ?? [])]), ...starts.map(({ on }) => on)].sort()
  const [from = schedule.countsFrom, to = schedule.countsFrom] = [days[0], days.at(-1)]
  return { from, to, totalDays: Math.max(1, daysBetween(from, to)), marks, starts, months: monthsBetween(from, to) }
}

type Schedule = NonNullable<FollowUpView['schedule']>

function roundMarks(rounds: Schedule['rounds']): TimelineMark[] {
  return rounds.map((round): TimelineMark => {
    const { number, state, collectedOn, dueOn, earliestOn, latestOn } = round
    const on = collectedOn ?? dueOn
    const words = collectedOn === undefined ? `due ${dueOn}` : `sampled ${collectedOn}`
    return {
      key: `round ${number}`,
      on,
      kind: 'round',
      state,
      text: String(number),
      label: `Round ${number}, ${words}, ${state}`,
      ...(collectedOn === undefined ? { window: [earliestOn, latestOn] as const } : {}),
    }
  })
}

function uncounted(samplings: Schedule['notCounted']): TimelineMark[] {
  return samplings.map(({ collectedOn, outcome, reason }, index) => ({
    key: `uncounted ${index}`,
    on: collectedOn,
    kind: 'not counted',
    state: outcome === 'positive' ? 'positive' : 'other',
    text: '',
    label: `Sampling of ${collectedOn}, ${outcome}: ${reason}`,
  }))
}

function startsOf({ schedule, firstFrom }: FollowUpView): { on: IsoDate; words: string }[] {
  if (schedule === undefined || firstFrom === undefined) return []
  const again = schedule.restarts.map(({ on, reason }) => ({
    on,
    words: reason.startsWith('positive') ? 'restart: positive' : 'restart: remediated',
  }))
  return [{ on: firstFrom, words: 'remediated' }, ...again]
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const

function monthsBetween(from: IsoDate, to: IsoDate): { on: IsoDate; name: string }[] {
  const months: { on: IsoDate; name: string }[] = []
  let [year, month] = [Number(from.slice(0, 4)), Number(from.slice(5, 7)) + 1]
  for (;;) {
    if (month > 12) [year, month] = [year + 1, 1]
    const on = `${year}-${String(month).padStart(2, '0')}-01`
    if (on > to) return months
    months.push({ on, name: `${MONTHS[month - 1] ?? ''}${month === 1 ? ` ${year}` : ''}` })
    month += 1
  }
}
