import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { readLabel } from '../label/label.ts'
import { labelsTaken } from '../plan/label-plan.ts'
import type { PlannedSample } from '../plan/plan-file.ts'
import type { Rule } from '../rules/rule.ts'
import { findStop, sampleName, standingOf, stopsOf, visitAt } from './stops.ts'

type AtStop =
  | 'stop.started'
  | 'step.done'
  | 'sample.collected'
  | 'reading.taken'
  | 'deviation.recorded'
  | 'photo.taken'
  | 'stop.finished'

/** Work happens at a stop of the round's adopted plan, or at one that was added on the spot. */
export const stopIsKnown: Rule<AtStop> = ({ body: { round, stop } }, { state }) => {
  if (!state.plan.rounds.has(round))
    return [issue('body.round', { expected: 'a round with an adopted plan', received: round })]
  if (findStop(state, { round, stop }) !== undefined) return []
  return [issue('body.stop', { expected: `a stop planned in ${round} or added on the spot first`, received: stop })]
}

export const addedStopIsSound: Rule<'stop.added'> = ({ body, id }, { state, amends }) => {
  const { round, stop } = body
  if (!state.plan.rounds.has(round))
    return [issue('body.round', { expected: 'a round with an adopted plan', received: round })]
  const issues: Issue[] = []
  const own = state.fieldwork.addedStops.find((one) => one.id === (amends ?? id))
  if (stopsOf(state, round).some((known) => known.stop.id === stop.id && known.stop.id !== own?.body.stop.id))
    issues.push(issue('body.stop.id', { expected: 'an id no other stop of the round has', received: stop.id }))
  if (stop.component !== undefined && state.building.working.component(stop.component) === undefined)
    issues.push(
      issue('body.stop.component', {
        expected: 'a component of the described water system, or none and a title that says the place',
        received: stop.component,
      }),
    )
  const taken = labelsTaken(state)
  for (const { label } of own?.body.stop.samples ?? []) if (label !== undefined) taken.delete(label)
  return [...issues, ...stop.samples.flatMap((sample, at) => addedLabel({ sample, at, taken }))]
}

function addedLabel(of: { sample: PlannedSample; at: number; taken: ReadonlySet<string> }): Issue[] {
  const { label } = of.sample
  if (label === undefined) return []
  const path = `body.stop.samples.${of.at}.label`
  const reading = readLabel(label)
  if (reading.kind === 'issue' || reading.label.id !== label)
    return [statedIssue(path, { expected: 'a label with right check digits, as printed', received: label })]
  return of.taken.has(label) ? [issue(path, { expected: 'a free label', received: label })] : []
}

/** "Sampled" says that everything planned here is there; less says why. */
export const outcomeIsTrue: Rule<'stop.finished'> = ({ body }, { state }) => {
  const known = findStop(state, body)
  if (known === undefined) return []
  const visit = visitAt(state, body)
  const missing = known.stop.samples.filter((sample) => standingOf(visit, sample) !== 'collected')
  if (body.outcome === 'sampled') {
    if (missing.length === 0) return []
    const names = missing.map((sample) => sampleName(sample)).join(', ')
    return [
      statedIssue('body.outcome', {
        expected: `"partly" or "not possible" and the reason`,
        received: `sampled, without ${names}`,
      }),
    ]
  }
  const issues: Issue[] = []
  if (body.outcome === 'not possible' && (visit?.samples.length ?? 0) > 0)
    issues.push(
      statedIssue('body.outcome', {
        expected: '"partly" or "sampled": samples were collected here',
        received: body.outcome,
      }),
    )
  if (body.reason === undefined || body.reason === '')
    issues.push(statedIssue('body.reason', { expected: 'why not everything planned was done' }))
  return issues
}
