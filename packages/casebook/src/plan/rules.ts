import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { readLabel } from '../label/label.ts'
import { acceptOwnProcedure } from '../procedures/procedures.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import { labelsOf, labelsTaken } from './label-plan.ts'
import { isLabelled } from './samples-at.ts'

/** R1 first, then R2 …: no round is skipped. */
const roundsFollow: Rule<'plan.adopted'> = ({ body }, { state }) => {
  const { rounds } = state.plan
  if (rounds.has(body.round)) return []
  const next = `R${rounds.size + 1}`
  return body.round === next ? [] : [issue('body.round', { expected: next, received: body.round })]
}

/** An adopted plan changes by amendment only, and keeps the stops where work has begun: what was done is judged against what was planned. */
const begunRoundStays: Rule<'plan.adopted'> = ({ body }, { state, amends }) => {
  const old = [...state.plan.rounds.values()].find(({ id, body: { round } }) => id === amends || round === body.round)
  if (old === undefined) return []
  if (amends !== undefined && old.body.round !== body.round)
    return [issue('body.round', { expected: `${old.body.round}, the round it amends`, received: body.round })]
  const begun = [...state.fieldwork.visits.values()].filter(({ round }) => round === body.round)
  const stops = new Set(body.plan.stops.map(({ id }) => id))
  const lost = begun.find(({ stop }) => !stops.has(stop) && old.body.plan.stops.some(({ id }) => id === stop))
  if (lost !== undefined)
    return [
      issue('body.plan.stops', { expected: `stop ${lost.stop}, because work has begun there`, received: undefined }),
    ]
  if (amends === undefined)
    return [
      issue('body.round', {
        expected: 'an amendment with a reason, because this round has a plan',
        received: body.round,
      }),
    ]
  return []
}

const firstIsInitial: Rule<'plan.adopted'> = ({ body }) =>
  (body.round === 'R1') === (body.purpose === 'initial')
    ? []
    : [
        issue('body.purpose', {
          expected: body.round === 'R1' ? 'initial' : 'follow-up or extra',
          received: body.purpose,
        }),
      ]

const stopsAreDistinct: Rule<'plan.adopted'> = ({ body }) => {
  const seen = new Set<string>()
  return body.plan.stops.flatMap(({ id }, at): Issue[] => {
    if (seen.has(id)) return [issue(`body.plan.stops.${at}.id`, { expected: 'an id no other stop has', received: id })]
    seen.add(id)
    return []
  })
}

/** A blank is of no place; every other stop is at a component that the described building has. */
const componentsExist: Rule<'plan.adopted'> = ({ body }, { state }) =>
  body.plan.stops.flatMap(({ component, samples }, at): Issue[] => {
    const path = `body.plan.stops.${at}.component`
    if (component === undefined) {
      const blank = samples.every(({ sampleKind }) => sampleKind === 'field-blank')
      return blank ? [] : [issue(path, { expected: 'the component it is at', received: undefined })]
    }
    if (state.building.working.component(component) !== undefined) return []
    return [issue(path, { expected: 'a component of the described water system', received: component })]
  })

const samplesAreLabelled: Rule<'plan.adopted'> = ({ body }) =>
  body.plan.stops.flatMap(({ samples }, stop) =>
    samples.flatMap((sample, at): Issue[] => {
      const path = `body.plan.stops.${stop}.samples.${at}.label`
      if (!isLabelled(sample))
        return sample.label === undefined
          ? []
          : [issue(path, { expected: 'no label on readings', received: sample.label })]
      if (sample.label === undefined) return [issue(path, { expected: 'a label', received: undefined })]
      const reading = readLabel(sample.label)
      if (reading.kind === 'ok' && reading.label.id === sample.label) return []
      return [issue(path, { expected: 'a label with right check digits, as printed', received: sample.label })]
    }),
  )

/** A label is printed for one sample of the whole investigation. */
const labelsAreUnique: Rule<'plan.adopted'> = ({ body }, { state }) => {
  const elsewhere = labelsTaken(state)
  const own = state.plan.rounds.get(body.round)
  if (own !== undefined) for (const label of labelsOf(own.body.plan)) elsewhere.delete(label)
  return labelsOf(body.plan).flatMap((label, at, all): Issue[] => {
    const path = `body.plan, label ${label}`
    if (all.indexOf(label) !== at) return [issue(path, { expected: 'a label used once in the plan', received: label })]
    return elsewhere.has(label) ? [issue(path, { expected: 'a label no other round has', received: label })] : []
  })
}

/** What was done is read by the procedure it was planned by, so one that a plan names is not replaced under it. */
const unusedProcedure: Rule<'procedure.added'> = ({ body: { procedure } }, { state }) => {
  const named = [...state.plan.rounds.values()].find(({ body }) =>
    body.plan.stops.some(({ samples }) => samples.some((sample) => sample.procedure === procedure.id)),
  )
  if (named === undefined) return []
  const expected = `another id, because the plan of ${named.body.round} names this one`
  return [issue('body.procedure.id', { expected, received: procedure.id })]
}

/** It may replace a built-in one only with another version. */
const ownVersion: Rule<'procedure.added'> = ({ body }) => {
  const accepted = acceptOwnProcedure(body.procedure)
  return accepted.ok ? [] : accepted.issues.map((found) => ({ ...found, path: `body.procedure.${found.path}` }))
}

export const planRules: Rules = {
  'procedure.added': [unusedProcedure, ownVersion],
  'plan.adopted': [
    roundsFollow,
    begunRoundStays,
    firstIsInitial,
    stopsAreDistinct,
    componentsExist,
    samplesAreLabelled,
    labelsAreUnique,
  ],
}
