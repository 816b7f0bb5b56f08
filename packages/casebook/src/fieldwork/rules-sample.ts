import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { readLabel } from '../label/label.ts'
import { labelsTaken } from '../plan/label-plan.ts'
import type { PlannedSample } from '../plan/plan-file.ts'
import type { Rule } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { afterHot, firstFlushTooLate, visitBefore } from './order.ts'
import { findStop, type KnownStop } from './stops.ts'

/** The label is one planned for this stop; at a stop added on the spot without labels, any free label with right check digits. */
export const labelIsOfStop: Rule<'sample.collected'> = ({ body }, { state }) => {
  const known = findStop(state, body)
  if (known === undefined) return []
  const planned = known.stop.samples.find(({ label }) => label === body.label)
  if (planned !== undefined) return kindFits(planned, body.sampleKind)
  const unlabelled = known.stop.samples.some(
    ({ label, sampleKind }) => label === undefined && sampleKind === body.sampleKind,
  )
  if (unlabelled || known.addedBecause !== undefined) return freeLabel(state, body.label)
  return [statedIssue('body.label', { expected: expectedLabels(known), received: body.label })]
}

function kindFits({ sampleKind, label }: PlannedSample, received: string): Issue[] {
  return sampleKind === received
    ? []
    : [issue('body.sampleKind', { expected: `${sampleKind}, as planned for ${label}`, received })]
}

function expectedLabels({ stop }: KnownStop): string {
  const labels = stop.samples.flatMap(({ label }) => label ?? [])
  return labels.length === 0
    ? 'no sample: only readings are planned here'
    : `a label of this stop: ${labels.join(', ')}`
}

function freeLabel(state: InvestigationState, label: string): Issue[] {
  const reading = readLabel(label)
  if (reading.kind === 'issue' || reading.label.id !== label)
    return [statedIssue('body.label', { expected: 'a label with right check digits, as printed', received: label })]
  const taken = labelsTaken(state)
  if (taken.has(label) && !state.fieldwork.samples.has(label))
    return [statedIssue('body.label', { expected: 'a free label', received: `${label}, planned for another stop` })]
  const letters = [...taken].flatMap((one) => letterOf(one))
  return letters.length === 0 || letters.includes(reading.label.prefix)
    ? []
    : [statedIssue('body.label', { expected: `a label of this investigation (${letters[0]})`, received: label })]
}

function letterOf(label: string): string[] {
  const reading = readLabel(label)
  return reading.kind === 'ok' ? [reading.label.prefix] : []
}

export const labelIsNew: Rule<'sample.collected'> = ({ body: { label } }, { state, amends }) => {
  const known = state.fieldwork.samples.get(label)
  if (known === undefined || known.id === amends) return []
  return [
    statedIssue('body.label', {
      expected: 'a label not collected yet',
      received: `${label}, collected at ${findStop(state, known.body)?.stop.title ?? known.body.stop}, ${known.body.round}`,
    }),
  ]
}

/** The first water is gone once anything ran; every sample comes before the hot reading. A departure is recorded first. */
export const samplesInOrder: Rule<'sample.collected'> = (entry, { state, amends }) => {
  const { body } = entry
  if (amends !== undefined || body.sampleKind === 'field-blank') return []
  const visit = visitBefore(state, entry)
  const late = body.sampleKind === 'first-flush-swab' ? firstFlushTooLate(state, visit) : afterHot(visit)
  if (late === undefined) return []
  const expected =
    body.sampleKind === 'first-flush-swab'
      ? 'the first flush and swab before any running, or a recorded deviation "out of order" first'
      : 'every sample before the hot reading, or a recorded deviation "out of order" first'
  return [statedIssue('body.sampleKind', { expected, received: late })]
}

export const atItsPlace: Rule<'sample.collected' | 'reading.taken'> = ({ body }, { state }) => {
  const place = findStop(state, body)?.stop.component
  if (place === undefined || body.component === undefined || body.component === place) return []
  return [issue('body.component', { expected: `${place}, where the stop is`, received: body.component })]
}
