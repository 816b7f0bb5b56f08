import { issue } from '@rillmark/science/catalogue/issue.ts'
import { localDate } from '../units/local-time.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import { criteriaOf } from './criteria-of.ts'
import { scheduleOn } from './follow-up-view.ts'

const namesRule: Rule<'follow-up.started'> = ({ body }, { state }) => {
  const set = criteriaOf(state, body)
  const received = `${body.criteria}, version ${body.version}`
  if (set === undefined)
    return [issue('body.criteria', { expected: 'the id and version of a known criteria set', received })]
  return set.followUp === undefined
    ? [issue('body.criteria', { expected: 'a criteria set with a follow-up rule', received })]
    : []
}

const remediationIsPast: Rule<'follow-up.started'> = (entry) =>
  entry.body.remediationCompletedOn <= localDate(entry)
    ? []
    : [
        issue('body.remediationCompletedOn', {
          expected: 'a day that has come',
          received: entry.body.remediationCompletedOn,
        }),
      ]

const notClosed: Rule<'follow-up.started' | 'follow-up.closed'> = (_, { state, amends }) => {
  const { closed } = state.followUp
  if (closed === undefined || amends !== undefined) return []
  return [
    issue('body', {
      expected: 'an open investigation; reopen it first',
      received: `closed on ${closed.body.closedOn}`,
    }),
  ]
}

const closedOnPast: Rule<'follow-up.closed'> = (entry) =>
  entry.body.closedOn <= localDate(entry)
    ? []
    : [issue('body.closedOn', { expected: 'a day that has come', received: entry.body.closedOn })]

const ruleMetIsTrue: Rule<'follow-up.closed'> = ({ body }, { state }) => {
  const closing = scheduleOn(state, body.closedOn)?.closing
  const met = closing?.met ?? false
  if (body.ruleMet === met) return []
  const reason = closing?.reason ?? 'no follow-up rule was started'
  return [issue('body.ruleMet', { expected: `${met}, because ${reason}`, received: body.ruleMet })]
}

const overrideHasReason: Rule<'follow-up.closed'> = ({ body }) =>
  body.ruleMet || body.overrideReason !== undefined
    ? []
    : [issue('body.overrideReason', { expected: 'why it is closed although the rule is not met', received: undefined })]

const wasClosed: Rule<'follow-up.reopened'> = (_, { state, amends }) =>
  state.followUp.closed !== undefined || amends !== undefined
    ? []
    : [issue('body', { expected: 'a closed investigation', received: 'an open one' })]

export const followUpRules: Rules = {
  'follow-up.started': [namesRule, remediationIsPast, notClosed],
  'follow-up.closed': [notClosed, closedOnPast, ruleMetIsTrue, overrideHasReason],
  'follow-up.reopened': [wasClosed],
}
