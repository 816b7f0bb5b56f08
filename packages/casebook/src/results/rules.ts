import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { readLabel } from '../label/label.ts'
import { originOf } from '../custody/origin.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { basisOf } from '../units/quantity.ts'
import { unitOf } from '../units/result-value.ts'
import { localDate } from '../units/local-time.ts'

/** A result belongs to a sample of the record: planned, collected, a part of one, or registered. */
const resultHasSample: Rule<'result.reported'> = ({ body }, { state }) =>
  sampleExists(state, body.label)
    ? []
    : [issue('body.label', { expected: 'the label of a sample in the record', received: body.label })]

const reportedAfterCollection: Rule<'result.reported'> = ({ body }, { state }) => {
  const collectedOn = collectionDay(state, body.label)
  if (collectedOn === undefined || body.reportedOn === undefined || body.reportedOn >= collectedOn) return []
  return [
    issue('body.reportedOn', { expected: `no day before collection on ${collectedOn}`, received: body.reportedOn }),
  ]
}

/** Swabs have no volume: a unit per swab belongs to a swab only. */
const swabUnitOnSwab: Rule<'result.reported'> = ({ body }, { state }) => {
  const unit = unitOf(body.value)
  const kind =
    originOf(state, body.label)?.sample.body.sampleKind ?? state.results.registered.get(body.label)?.body.sampleKind
  if (unit === undefined || basisOf(unit) !== 'swab' || kind === undefined || kind === 'first-flush-swab') return []
  return [
    issue('body.value.unit', { expected: `a unit per volume of water, as this sample is ${kind}`, received: unit }),
  ]
}

const importExists: Rule<'result.reported'> = ({ body }, { state }) =>
  body.importedBy === undefined || state.results.imports.some(({ id }) => id === body.importedBy)
    ? []
    : [issue('body.importedBy', { expected: 'an import of this record', received: body.importedBy })]

/** A label names one sample: registering one that is planned, collected or registered already would make two of it. */
const labelIsFree: Rule<'sample.registered'> = ({ body }, { state, amends }) => {
  const registered = state.results.registered.get(body.label)
  const taken =
    state.fieldwork.samples.has(body.label) ||
    isPlanned(state, body.label) ||
    (registered !== undefined && registered.id !== amends)
  return taken ? [issue('body.label', { expected: 'a label no other sample has', received: body.label })] : []
}

/** A component the building does not have would be a place nobody can find. */
const componentExists: Rule<'sample.registered'> = ({ body }, { state }) => {
  if (
    body.component === undefined ||
    state.building.system === undefined ||
    state.building.working.component(body.component) !== undefined
  )
    return []
  return [issue('body.component', { expected: 'a component of the building', received: body.component })]
}

const rowsAddUp: Rule<'results.imported'> = ({ body }) => {
  const told = body.accepted + body.setAside.length
  return told === body.rows
    ? []
    : [issue('body.rows', { expected: `every row accepted or set aside with a reason (${told})`, received: body.rows })]
}

const isolateHasOrigin: Rule<'isolate.recorded'> = ({ body }, { state, amends }) => {
  const issues: Issue[] = []
  const same = state.results.isolates.get(body.code)
  if (same !== undefined && same.id !== amends)
    issues.push(issue('body.code', { expected: 'a code no other isolate has', received: body.code }))
  if (body.from.origin === 'case' && !state.cases.cases.has(body.from.caseCode))
    issues.push(issue('body.from.caseCode', { expected: 'the code of a case', received: body.from.caseCode }))
  if (body.from.origin === 'sample' && !sampleExists(state, body.from.label))
    issues.push(
      issue('body.from.label', { expected: 'the label of a sample in the record', received: body.from.label }),
    )
  return issues
}

export const resultsRules: Rules = {
  'results.imported': [rowsAddUp],
  'sample.registered': [labelIsFree, componentExists],
  'result.reported': [resultHasSample, reportedAfterCollection, swabUnitOnSwab, importExists],
  'isolate.recorded': [isolateHasOrigin],
}

function sampleExists(state: InvestigationState, label: string): boolean {
  return (
    state.fieldwork.samples.has(label) ||
    state.custody.splits.has(label) ||
    state.results.registered.has(label) ||
    isPlanned(state, label)
  )
}

/** Planned labels are searched only for labels written like ours, which keeps a large import of others' samples quick. */
function isPlanned(state: InvestigationState, label: string): boolean {
  if (readLabel(label).kind !== 'ok') return false
  return [...state.plan.rounds.values()].some(({ body }) =>
    body.plan.stops.some(({ samples }) => samples.some((sample) => sample.label === label)),
  )
}

function collectionDay(state: InvestigationState, label: string): string | undefined {
  const collected = originOf(state, label)?.sample
  return collected === undefined ? state.results.registered.get(label)?.body.collectedOn : localDate(collected)
}
