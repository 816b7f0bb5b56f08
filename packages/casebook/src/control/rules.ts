import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { localDate } from '../units/local-time.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { beforeInitialSamples } from './initial-round.ts'
import { progressOf } from './measure-progress.ts'
import type { Measure } from './state.ts'
import { shortOf } from './target-reached.ts'
import { amountWords } from './target-words.ts'
import { TREATING_MEASURES } from './treatments.ts'

const namesComponents: Rule<'measure.ordered'> = ({ body }, { state }) => {
  if (state.building.system === undefined) return []
  return body.components
    .filter((id) => state.building.working.component(id) === undefined)
    .map((id) => issue('body.components', { expected: 'components of the described building', received: id }))
}

const namesOnce: Rule<'measure.ordered'> = ({ body }) =>
  body.components
    .filter((id, index) => body.components.indexOf(id) !== index)
    .map((id) => issue('body.components', { expected: 'each component once', received: id }))

const measureIsKnown: Rule<'measure.achieved' | 'measure.completed'> = ({ body }, { state }) =>
  state.control.measures.has(body.measure)
    ? []
    : [issue('body.measure', { expected: 'the id of an ordered measure', received: body.measure })]

const proofBelongs: Rule<'measure.achieved'> = ({ body }, { state }) =>
  within({ state, id: body.measure }, ({ ordered }) => {
    const { components } = ordered.body
    if (components.length === 0 && body.component === undefined) return []
    if (components.length === 0) return namesKnown(state, body.component)
    if (body.component !== undefined && components.includes(body.component)) return []
    return [issue('body.component', { expected: 'one of the places of the measure', received: body.component })]
  })

const proofIsPast: Rule<'measure.achieved'> = ({ body, instant }) =>
  body.at <= instant ? [] : [issue('body.at', { expected: 'a moment that has come', received: body.at })]

const reachedIsTrue: Rule<'measure.achieved'> = ({ body }, { state }) =>
  within({ state, id: body.measure }, ({ ordered }) => {
    const { target } = ordered.body
    if (!body.reached || target === undefined) return []
    if (body.achieved === undefined)
      return [
        issue('body.achieved', { expected: `what was measured, ${amountWords(target)} wanted`, received: undefined }),
      ]
    const short = shortOf(target, body.achieved)
    return short === undefined
      ? []
      : [issue('body.reached', { expected: `at least ${amountWords(target)}`, received: short })]
  })

const completedOnce: Rule<'measure.completed'> = ({ body }, { state, amends }) =>
  within({ state, id: body.measure }, ({ completed }) =>
    completed === undefined || completed.id === amends
      ? []
      : [issue('body.measure', { expected: 'a measure not yet completed', received: completed.body.outcome })],
  )

const completedInPast: Rule<'measure.completed'> = (entry) =>
  entry.body.completedOn <= localDate(entry)
    ? []
    : [issue('body.completedOn', { expected: 'a day that has come', received: entry.body.completedOn })]

const provedEverywhere: Rule<'measure.completed'> = ({ body }, { state }) =>
  within({ state, id: body.measure }, (measure) => {
    if (body.outcome !== 'carried out') return []
    const { mustBeProved, missing, places } = progressOf(measure)
    if (!mustBeProved || missing.length === 0) return []
    const shown = missing.slice(0, 3).join(', ')
    const received = `${missing.length} of ${places.length} without such a proof: ${shown}${missing.length > 3 ? ' …' : ''}`
    return [
      issue('body.outcome', { expected: '"partly", until each place has a proof that reached the target', received }),
    ]
  })

const reasonGiven: Rule<'measure.completed'> = ({ body }, { state }) =>
  within({ state, id: body.measure }, ({ ordered }) => {
    if (body.reason !== undefined && body.reason !== '') return []
    if (body.outcome !== 'carried out')
      return [issue('body.reason', { expected: `why it was ${body.outcome}`, received: undefined })]
    if (ordered.body.stage !== 'remediation' && !changesWater(ordered.body.measure)) return []
    const early = beforeInitialSamples(state, body.completedOn)
    return early === undefined
      ? []
      : [issue('body.reason', { expected: `why it came before sampling, because ${early}`, received: undefined })]
  })

/** A filter protects people at once and may always be fitted first; the samples behind it are flagged. */
const changesWater = (measure: Measure['ordered']['body']['measure']): boolean =>
  TREATING_MEASURES.has(measure) && measure !== 'fit point-of-use filter'

/** Judges the measure named; that there is one is a rule of its own. */
function within(
  { state, id }: { state: InvestigationState; id: string },
  judge: (measure: Measure) => Issue[],
): Issue[] {
  const measure = state.control.measures.get(id)
  return measure === undefined ? [] : judge(measure)
}

function namesKnown(state: InvestigationState, component: string | undefined): Issue[] {
  if (component === undefined || state.building.system === undefined) return []
  return state.building.working.component(component) === undefined
    ? [issue('body.component', { expected: 'a component of the described building', received: component })]
    : []
}

export const controlRules: Rules = {
  'measure.ordered': [namesComponents, namesOnce],
  'measure.achieved': [measureIsKnown, proofBelongs, proofIsPast, reachedIsTrue],
  'measure.completed': [measureIsKnown, completedOnce, completedInPast, provedEverywhere, reasonGiven],
}
