import type { FollowUpRound } from '@rillmark/science/follow-up/schedule.ts'
import { followUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { addDays } from '@rillmark/science/calendar/iso-date.ts'
import ical, { type ICalEventData, ICalEventTransparency } from 'ical-generator'

/**
 * The rounds of the follow-up as an iCalendar file (RFC 5545), all-day events on the days they are due, or were taken.
 *
 * Made from the record alone: an event keeps its UID while the follow-up runs, so that a calendar moves it when the clock restarts; DTSTAMP is
 * the moment of the last entry and SEQUENCE their number, so the same record gives the same bytes and a later one is newer.
 */
export function followUpCalendar(state: InvestigationState): string | { issues: Issue[] } {
  const last = state.record.entries.at(-1)
  const asOf = last?.instant
  // the day after the last entry has begun nowhere before it, so no sampling of the record lies ahead of it
  const view = asOf === undefined ? undefined : followUpView(state, addDays(asOf.slice(0, 10), 1))
  if (asOf === undefined || view?.started === undefined || view.schedule === undefined)
    return { issues: [issue('follow-up', { expected: 'a follow-up that was started', received: undefined })] }
  const { started, schedule, criteria } = view
  const title = state.brief.opened?.body.title ?? state.investigation
  const calendar = ical({
    name: `Follow-up, ${title}`,
    prodId: { company: 'Rillmark', product: 'follow-up', language: 'EN' },
  })
  const common = { stamp: new Date(asOf), sequence: state.record.entries.length }
  const rounds = schedule.rounds.filter(({ collectedOn }) => view.closed === undefined || collectedOn !== undefined)
  for (const round of rounds)
    calendar.createEvent({
      ...common,
      ...allDay(round.collectedOn ?? round.dueOn),
      id: `${started.id}-round-${round.number}@rillmark`,
      summary: `${title}: ${roundWords(round)}`,
      description: descriptionOf(round, { rule: criteria?.followUp?.title ?? '', restarts: schedule.restarts }),
    })
  return `${calendar.toString()}\r\n`
}

function roundWords({ number, state }: FollowUpRound): string {
  const words = { negative: ', sampled, negative', sampled: ', sampled, awaiting the laboratory' }
  return `follow-up round ${number}${state === 'negative' || state === 'sampled' ? words[state] : ' due'}`
}

function descriptionOf(
  { earliestOn, latestOn, collectedOn }: FollowUpRound,
  { rule, restarts }: { rule: string; restarts: readonly { reason: string }[] },
): string {
  const window = earliestOn === latestOn ? `On ${earliestOn}.` : `Counts from ${earliestOn} to ${latestOn}.`
  const why = restarts.at(-1)
  return [
    collectedOn === undefined ? window : `Sampled on ${collectedOn}.`,
    `Rule: ${rule}.`,
    ...(why === undefined ? [] : [`The clock restarted: ${why.reason}.`]),
  ].join('\n')
}

/** A day of its own that makes nobody look busy. */
function allDay(date: string): Pick<ICalEventData, 'start' | 'end' | 'allDay' | 'timezone' | 'transparency'> {
  return {
    start: new Date(`${date}T00:00:00Z`),
    end: new Date(`${addDays(date, 1)}T00:00:00Z`),
    allDay: true,
    timezone: 'UTC',
    transparency: ICalEventTransparency.TRANSPARENT,
  }
}
