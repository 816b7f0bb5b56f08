import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { readLabel } from '../label/label.ts'
import { labelsTaken } from '../plan/label-plan.ts'
import type { Rule } from '../rules/rule.ts'
import { originOf, volumeLeftMl } from './origin.ts'

/** A split is a part of a sample that was collected; of readings there is nothing to divide. */
export const splitsASample: Rule<'sample.split'> = ({ body: { label } }, { state }) => {
  const origin = originOf(state, label)
  if (origin === undefined)
    return [issue('body.label', { expected: 'the label of a collected sample', received: label })]
  return origin.sample.body.sampleKind === 'readings-only'
    ? [issue('body.label', { expected: 'a sample with water in it', received: `${label}, readings only` })]
    : []
}

/** A split has a label of its own that no sample has or will have; one written like ours has right check digits. */
export const splitLabelIsFree: Rule<'sample.split'> = ({ body: { split } }, { state, amends }) => {
  if (amends !== undefined) return []
  if (labelsTaken(state).has(split) || state.results.registered.has(split))
    return [issue('body.split', { expected: 'a label no other sample has', received: split })]
  const reading = readLabel(split)
  return LIKE_OURS.test(split) && (reading.kind === 'issue' || reading.label.id !== split)
    ? [issue('body.split', { expected: 'a label with right check digits, as printed', received: split })]
    : []
}

const LIKE_OURS = /^[a-z]{3}[-\s]?\d{4}[-\s]?\d{2}$/i

/** No more water is given away than there is, and some of it stays. */
export const splitLeavesSome: Rule<'sample.split'> = ({ body: { label, volumeMl } }, { state, amends }) => {
  const left = volumeLeftMl(state, { label, besides: amends })
  return left === undefined || volumeMl < left
    ? []
    : [issue('body.volumeMl', { expected: `less than the ${left} mL left of ${label}`, received: volumeMl })]
}

/** An amended split stays the part it was: its labels may be on bottles and papers already. */
export const splitLabelsStay: Rule<'sample.split'> = ({ body }, { state, amends }) => {
  const before = [...state.custody.splits.values()].find(({ id }) => id === amends)?.body
  if (before === undefined) return []
  const issues: Issue[] = []
  if (body.label !== before.label) issues.push(issue('body.label', { expected: before.label, received: body.label }))
  if (body.split !== before.split) issues.push(issue('body.split', { expected: before.split, received: body.split }))
  return issues
}
