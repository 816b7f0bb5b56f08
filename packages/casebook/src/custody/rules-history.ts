import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Entry } from '../entry/entry.ts'
import type { Kind } from '../entry/kinds.ts'
import type { Rule } from '../rules/rule.ts'
import { derive } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { CUSTODY_KINDS } from './kinds.ts'

/**
 * What an amendment or withdrawal would do to everything written since: the record is gone through again with it, and it is refused where an
 * entry that counted would no longer fit, or where a sealed or received consignment would hold other samples than before.
 */
export function historyBreaks(entry: Entry, state: InvestigationState): Issue[] {
  const after = derive(state.investigation, [...state.record.entries, entry]).custody
  const known = new Set(state.custody.conflicts.map((conflict) => conflict.entry.id))
  const broken = after.conflicts.filter((conflict) => !known.has(conflict.entry.id))
  const own = state.record.firstOf.get(entry.corrects?.entry ?? '')
  const issues = broken.flatMap((conflict) =>
    conflict.entry.id === own
      ? conflict.issues
      : [
          issue('corrects.entry', {
            expected: 'a history that still fits',
            received: `${CUSTODY_KINDS[conflict.entry.kind as keyof typeof CUSTODY_KINDS].title} of ${conflict.entry.instant} would not: expected ${conflict.issues[0]?.expected}`,
          }),
        ],
  )
  if (issues.length > 0) return issues
  return [...state.custody.consignments.values()].flatMap(({ code, labels, seal, received }) => {
    const then = after.consignments.get(code)
    const closed =
      (seal !== undefined && then?.seal !== undefined) || (received !== undefined && then?.received !== undefined)
    return !closed || sameLabels(labels, then?.labels)
      ? []
      : [
          issue('corrects.entry', {
            expected: `what is in ${code} to stay as it was sealed`,
            received: 'other samples',
          }),
        ]
  })
}

function sameLabels(one: ReadonlySet<string>, other: ReadonlySet<string> | undefined): boolean {
  return other !== undefined && one.size === other.size && [...one].every((label) => other.has(label))
}

/** A withdrawal of custody leaves a history that fits; a sample in a consignment or divided stays collected. */
export const withdrawalFits: Rule<'entry.withdrawn'> = (entry, { state }) => {
  const first = targetOf(entry, state)
  if (first === undefined) return []
  if (first.kind === 'sample.collected') return inCustody(state, first.body.label)
  if (first.kind === 'sample.split') {
    const split = inCustody(state, first.body.split)
    if (split.length > 0) return split
  }
  if (first.kind === 'consignment.sealed' && wasHandedOn(state, first.body.consignment))
    return [
      issue('corrects.entry', {
        expected: 'a seal on a consignment that was not handed on; its number can be amended',
        received: first.body.consignment,
      }),
    ]
  return isCustody(first.kind) ? historyBreaks(entry, state) : []
}

/** The label of a sample stays as it was packed, divided or received under. */
export const packedLabelStays: Rule<'sample.collected'> = ({ body: { label } }, { state, amends }) => {
  const before = amends === undefined ? undefined : state.record.versions.get(amends)
  const last = before?.amendments.at(-1) ?? before?.first
  if (last?.kind !== 'sample.collected' || last.body.label === label) return []
  return inCustody(state, last.body.label).length === 0
    ? []
    : [issue('body.label', { expected: `${last.body.label}, as it was packed`, received: label })]
}

/** A split has its label for itself. */
export const noSplitHasLabel: Rule<'sample.collected' | 'sample.registered'> = ({ body: { label } }, { state }) =>
  state.custody.splits.has(label) ? [issue('body.label', { expected: 'a label no split has', received: label })] : []

function inCustody({ custody }: InvestigationState, label: string): Issue[] {
  const place = custody.consignmentOf.get(label)
  if (place !== undefined)
    return [issue('corrects.entry', { expected: `${label} taken out of ${place} first`, received: 'a withdrawal' })]
  const part = [...custody.splits.values()].find(({ body }) => body.label === label)?.body.split
  return part === undefined
    ? []
    : [issue('corrects.entry', { expected: `the split ${part} withdrawn first`, received: 'a withdrawal' })]
}

function wasHandedOn({ custody }: InvestigationState, consignment: string): boolean {
  const events = custody.consignments.get(consignment)?.events ?? []
  return events.some(({ kind }) => kind === 'consignment.handed-over' || kind === 'consignment.received')
}

function targetOf({ corrects }: Entry, { record }: InvestigationState): Entry | undefined {
  const first = corrects === undefined ? undefined : record.firstOf.get(corrects.entry)
  return first === undefined ? undefined : record.versions.get(first)?.first
}

const isCustody = (kind: Kind): boolean => Object.hasOwn(CUSTODY_KINDS, kind)
