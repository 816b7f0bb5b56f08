import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import { lastDayBegun } from '../units/local-time.ts'

/** A code carries a digit and no row of words: `MH-03`, `Case 3`. Two words of letters look like a person's name. */
export function codeIssue(code: string, path: string): Issue[] {
  const words = code.split(/[\s._/-]+/).filter((word) => /^\p{L}{2,}$/u.test(word))
  if (/\d/.test(code) && words.length < 2) return []
  return [issue(path, { expected: 'a code with a number, such as MH-03 (never a name)', received: code })]
}

const codeIsNoName: Rule<'case.recorded'> = ({ body }) => codeIssue(body.code, 'body.code')

const codeIsNew: Rule<'case.recorded'> = ({ body }, { state, amends }) => {
  const known = state.cases.cases.get(body.code)
  if (known === undefined || known.id === amends) return []
  return [issue('body.code', { expected: 'a code not used by another case', received: body.code })]
}

/** Exposures point at a case by its code, so an amendment that renames the case would cut them off. */
const codeStays: Rule<'case.recorded'> = ({ body }, { state, amends }) => {
  if (amends === undefined) return []
  const old = [...state.cases.cases.values()].find(({ id }) => id === amends)
  if (old === undefined || old.body.code === body.code) return []
  const used = state.cases.exposures.some(({ body: exposure }) => exposure.caseCode === old.body.code)
  return used
    ? [issue('body.code', { expected: `${old.body.code}, because exposures name it`, received: body.code })]
    : []
}

const onsetIsPast: Rule<'case.recorded'> = ({ body, instant }) => {
  if (body.onsetDate === undefined || body.onsetDate <= lastDayBegun(instant)) return []
  return [issue('body.onsetDate', { expected: 'a day that has come', received: body.onsetDate })]
}

const exposureHasCase: Rule<'exposure.recorded'> = ({ body }, { state }) =>
  state.cases.cases.has(body.caseCode)
    ? []
    : [issue('body.caseCode', { expected: 'the code of a recorded case', received: body.caseCode })]

const exposureRunsForward: Rule<'exposure.recorded'> = ({ body }) =>
  body.to >= body.from ? [] : [issue('body.to', { expected: `${body.from} or later`, received: body.to })]

const exposureComponentExists: Rule<'exposure.recorded'> = ({ body }, { state }) => {
  const { component } = body
  if (component === undefined || state.building.working.component(component) !== undefined) return []
  return [issue('body.component', { expected: 'a component of the described water system', received: component })]
}

export const casesRules: Rules = {
  'case.recorded': [codeIsNoName, codeIsNew, codeStays, onsetIsPast],
  'exposure.recorded': [exposureHasCase, exposureRunsForward, exposureComponentExists],
}
