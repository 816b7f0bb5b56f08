import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule, Rules } from '../rules/rule.ts'

const openedOnce: Rule<'investigation.opened'> = (_entry, { state, amends }) =>
  state.brief.opened === undefined || state.brief.opened.id === amends
    ? []
    : [issue('kind', { expected: 'an investigation that is not open yet', received: 'investigation.opened' })]

const questionIsOpen: Rule<'question.settled'> = ({ body }, { state, amends }) => {
  const asked = state.brief.notes.some(({ id, body: note }) => id === body.question && note.purpose === 'open question')
  const answer = state.brief.settled.get(body.question)
  if (asked && (answer === undefined || answer.id === amends)) return []
  return [issue('body.question', { expected: 'an open question', received: body.question })]
}

export const briefRules: Rules = { 'investigation.opened': [openedOnce], 'question.settled': [questionIsOpen] }
