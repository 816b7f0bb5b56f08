import { acceptOwnCriteriaSet, findCriteriaSet } from '../criteria/criteria-sets.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** A built-in set is named by id and version; an own one is whole in the entry, so that the record alone can be read again. */
const criteriaAreKnown: Rule<'criteria.chosen'> = ({ body }) => {
  if (body.own !== undefined) {
    const read = acceptOwnCriteriaSet(body.own)
    if (!read.ok)
      return read.issues.map((found) => ({ ...found, path: found.path === '' ? 'body.own' : `body.own.${found.path}` }))
    return [
      ...mismatch('criteria', { expected: read.value.id, received: body.criteria }),
      ...mismatch('version', { expected: read.value.version, received: body.version }),
    ]
  }
  const set = findCriteriaSet(body.criteria)
  if (set === undefined)
    return [
      issue('body.criteria', {
        expected: 'a built-in criteria set, or a set of your own given whole',
        received: body.criteria,
      }),
    ]
  return mismatch('version', { expected: set.version, received: body.version })
}

function mismatch(field: string, { expected, received }: { expected: string; received: string }): Issue[] {
  return expected === received ? [] : [issue(`body.${field}`, { expected, received })]
}

/** A conclusion stands on something of the record. */
const conclusionHasEvidence: Rule<'finding.concluded'> = ({ body }, { state }) => {
  if (body.evidence.length === 0)
    return [issue('body.evidence', { expected: 'at least one piece of evidence', received: [] })]
  return body.evidence.flatMap(({ ref }, index) =>
    refersToRecord(state, ref)
      ? []
      : [
          issue(`body.evidence.${index}.ref`, {
            expected: 'an entry, sample, case, isolate or component of this record',
            received: ref,
          }),
        ],
  )
}

/** A strong conclusion says what would change it, and is not written over what speaks against it. */
const strongSaysWhatWouldChangeIt: Rule<'finding.concluded'> = ({ body }) =>
  body.strength === 'strong' && (body.wouldChangeIt ?? '') === ''
    ? [issue('body.wouldChangeIt', { expected: 'what would change a strong conclusion', received: body.wouldChangeIt })]
    : []

const componentsExist: Rule<'finding.concluded'> = ({ body }, { state }) => {
  if (state.building.system === undefined) return []
  return body.components.flatMap((id, index) =>
    state.building.working.component(id) === undefined
      ? [issue(`body.components.${index}`, { expected: 'a component of the building', received: id })]
      : [],
  )
}

export const findingsRules: Rules = {
  'criteria.chosen': [criteriaAreKnown],
  'finding.concluded': [conclusionHasEvidence, strongSaysWhatWouldChangeIt, componentsExist],
}

function refersToRecord(state: InvestigationState, ref: string): boolean {
  return (
    state.record.firstOf.has(ref) ||
    state.fieldwork.samples.has(ref) ||
    state.results.registered.has(ref) ||
    state.results.isolates.has(ref) ||
    state.cases.cases.has(ref) ||
    state.building.working.component(ref) !== undefined
  )
}
