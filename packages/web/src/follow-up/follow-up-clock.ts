import { counted } from '@rillmark/casebook/units/counted.ts'
import { followUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import type { RunningClock } from '../shell/clocks.ts'
import { localDay } from '../store/local-time.ts'

/** When the next follow-up round is due: `Follow-up round 3: due in 5 days`. */
export function roundClock(state: InvestigationState, now: number): RunningClock | undefined {
  if (state.followUp.started === undefined || state.followUp.closed !== undefined) return undefined
  const today = localDay(now)
  const { next } = followUpView(state, today)
  if (next === undefined) return undefined
  const late = daysBetween(next.latestOn, today)
  return {
    about: `Follow-up round ${next.number}`,
    left: late > 0 ? `late by ${counted(late, 'day')}` : dueWords(daysBetween(today, next.dueOn)),
    endsAt: Date.parse(`${next.latestOn}T23:59:59`),
    late: late > 0,
  }
}

function dueWords(ahead: number): string {
  if (ahead > 0) return `due in ${counted(ahead, 'day')}`
  return ahead === 0 ? 'due today' : `due since ${counted(-ahead, 'day')}`
}
