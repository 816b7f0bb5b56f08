import { custodyView } from '../custody/custody-view.ts'
import { followUpView } from '../follow-up/follow-up-view.ts'
import { waitingSamples } from '../results/waiting.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { counted } from '../units/counted.ts'
import type { BriefLine, Moment } from './brief-view.ts'

/** What the job asks for next, in its order. Any order is allowed: this says what is open, not what is permitted. */
export function next(state: InvestigationState, moment: Moment): BriefLine[] {
  return [
    ...beforeSampling(state),
    ...fieldwork(state),
    ...custody(state, moment),
    ...results(state, moment),
    ...afterResults(state),
    ...followUpRound(state, moment),
    ...closing(state),
  ]
}

function beforeSampling({ cases, building, plan }: InvestigationState): BriefLine[] {
  return [
    ...(cases.cases.size === 0 ? [step('Record the cases by code, and where they met water', 'cases')] : []),
    ...(building.described === undefined
      ? [step('Describe the building’s water: two minutes with its water person', 'building')]
      : []),
    ...(building.described !== undefined && building.sweep.size === 0
      ? [step('Look for everything that wets air', 'building')]
      : []),
    ...(building.described !== undefined && plan.rounds.size === 0
      ? [step('Plan the sampling, before any remediation', 'plan')]
      : []),
  ]
}

function fieldwork({ plan, fieldwork: { visits } }: InvestigationState): BriefLine[] {
  return [...plan.rounds.values()].flatMap(({ body }) => {
    const open = body.plan.stops.filter(({ id }) => visits.get(`${body.round}/${id}`)?.finished === undefined).length
    if (open === 0) return []
    const when = body.scheduledOn === undefined ? '' : `, planned for ${body.scheduledOn}`
    return [
      {
        words: `Visit ${counted(open, 'stop')} of round ${body.round}${when}`,
        step: 'fieldwork' as const,
        show: body.round,
      },
    ]
  })
}

function custody(state: InvestigationState, { nowMs }: Moment): BriefLine[] {
  const { loose, consignments } = custodyView(state, nowMs)
  const away = consignments.filter(({ stage }) => stage === 'sealed' || stage === 'on its way')
  return [
    ...(loose.length > 0 ? [step(`Pack ${counted(loose.length, 'sample')}`, 'custody')] : []),
    ...away.map(({ code, stage }) => ({
      words: `${code} is ${stage}: record its receipt by the laboratory`,
      step: 'custody' as const,
      show: code,
    })),
  ]
}

function results(state: InvestigationState, { today }: Moment): BriefLine[] {
  const waiting = waitingSamples(state, today)
  const unread = waiting.filter(({ why }) => why === 'not interpretable: sample again')
  const rejected = waiting.filter(({ why }) => why === 'rejected: sample again')
  const out = waiting.length - unread.length - rejected.length
  return [
    ...(out > 0 ? [step(`${counted(out, 'result')} to come from the laboratory`, 'results')] : []),
    ...(unread.length > 0 ? [step(`Sample again: ${counted(unread.length, 'result')} can’t be read`, 'plan')] : []),
    ...(rejected.length > 0
      ? [step(`Sample again: the laboratory rejected ${counted(rejected.length, 'sample')}`, 'plan')]
      : []),
  ]
}

function afterResults({
  results: { results: reported },
  findings,
  control,
  followUp,
}: InvestigationState): BriefLine[] {
  if (reported.length === 0) return []
  const completed = [...control.measures.values()].some(({ completed: done }) => done?.body.outcome === 'carried out')
  return [
    ...(findings.criteria === undefined ? [step('Choose the criteria the results are judged by', 'findings')] : []),
    ...(findings.conclusions.length === 0 ? [step('Write what you conclude, with its evidence', 'findings')] : []),
    ...(control.measures.size === 0 ? [step('Order measures: immediate protection, then remediation', 'control')] : []),
    ...(completed && followUp.started === undefined ? [step('Start the follow-up', 'follow-up')] : []),
  ]
}

/** The round of follow-up that comes next: sampled as one already adopted, else to be planned. */
function followUpRound(state: InvestigationState, { today }: Moment): BriefLine[] {
  const { next: round, outcomes, closed } = followUpView(state, today)
  if (round === undefined || closed !== undefined) return []
  const open = outcomes.filter(({ purpose }) => purpose !== 'initial')
  const adopted =
    open.find(({ outcome }) => outcome === 'begun') ?? open.find(({ outcome }) => outcome === 'not sampled')
  const due =
    round.dueOn > today ? `due on ${round.dueOn}` : `due since ${round.dueOn}, at the latest on ${round.latestOn}`
  return adopted === undefined
    ? [step(`Plan follow-up round ${round.number}, ${due}`, 'plan')]
    : [
        {
          words: `${adopted.outcome === 'begun' ? 'Finish' : 'Sample'} follow-up round ${round.number} as ${adopted.round}, ${due}`,
          step: 'fieldwork',
          show: adopted.round,
        },
      ]
}

function closing({ followUp, report }: InvestigationState): BriefLine[] {
  return followUp.closed !== undefined && report.issued.length === 0 ? [step('Issue the report', 'report')] : []
}

function step(words: string, at: BriefLine['step']): BriefLine {
  return { words, step: at }
}
