import { custodyView } from '../custody/custody-view.ts'
import { followUpView } from '../follow-up/follow-up-view.ts'
import { mustBeTakenAgain, waitingSamples } from '../results/waiting.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { counted } from '../units/counted.ts'
import type { BriefLine, Moment } from './brief-view.ts'
import { LAB_DAYS } from './lab-days.ts'

/** What should have happened by now and has not. */
export function late(state: InvestigationState, moment: Moment): BriefLine[] {
  return [
    ...holdTime(state, moment),
    ...rounds(state, moment),
    ...laboratory(state, moment),
    ...measures(state, moment),
    ...followUp(state, moment),
  ]
}

function holdTime(state: InvestigationState, { nowMs }: Moment): BriefLine[] {
  const over = custodyView(state, nowMs).late.filter(({ clock }) => clock === 'over')
  return over.length === 0
    ? []
    : [{ words: `${counted(over.length, 'sample')} past the hold time and not with a laboratory`, step: 'custody' }]
}

function rounds({ plan, fieldwork }: InvestigationState, { today }: Moment): BriefLine[] {
  return [...plan.rounds.values()]
    .filter(({ body }) => body.scheduledOn !== undefined && body.scheduledOn < today)
    .filter(({ body }) => ![...fieldwork.visits.values()].some(({ round }) => round === body.round))
    .map(({ body }) => ({
      words: `Round ${body.round} was planned for ${body.scheduledOn} and has not begun`,
      step: 'fieldwork',
      show: body.round,
    }))
}

function laboratory(state: InvestigationState, { today }: Moment): BriefLine[] {
  const overdue = waitingSamples(state, today).filter(
    ({ why, days }) => !mustBeTakenAgain(why) && days !== undefined && days > LAB_DAYS.value,
  )
  return overdue.length === 0
    ? []
    : [
        {
          words: `${counted(overdue.length, 'result')} still out more than ${LAB_DAYS.value} days after sampling`,
          step: 'results',
        },
      ]
}

function followUp(state: InvestigationState, { today }: Moment): BriefLine[] {
  const { next, closed } = followUpView(state, today)
  return next === undefined || closed !== undefined || next.latestOn >= today
    ? []
    : [{ words: `Follow-up round ${next.number}: at the latest on ${next.latestOn}, not sampled`, step: 'follow-up' }]
}

function measures({ control }: InvestigationState, { today }: Moment): BriefLine[] {
  return [...control.measures.values()]
    .filter(
      ({ ordered, completed }) =>
        completed === undefined && ordered.body.dueOn !== undefined && ordered.body.dueOn < today,
    )
    .map(({ ordered: { id, body } }) => ({
      words: `${body.measure}, ${body.where}: due ${body.dueOn}, ${body.owner}`,
      step: 'control',
      show: id,
    }))
}
