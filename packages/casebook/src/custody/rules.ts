import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { happenedAt } from './happened-at.ts'
import type { Consignment } from './state.ts'

const codeIsNew: Rule<'consignment.opened'> = ({ body, id }, { state, amends }) => {
  const known = state.custody.consignments.get(body.consignment)
  if (known === undefined || known.opened.id === (amends ?? id)) return []
  return [issue('body.consignment', { expected: 'a code not used by another consignment', received: body.consignment })]
}

const packable: Rule<'sample.packed'> = ({ body: { consignment, label } }, { state, amends }) => {
  if (amends !== undefined) return [eventsStand('sample.packed')]
  return within({ state, consignment }, (box) => {
    if (box.seal !== undefined)
      return [
        issue('body.consignment', {
          expected: 'a consignment that is not sealed',
          received: `${consignment}, seal ${box.seal.body.seal}`,
        }),
      ]
    if (box.received !== undefined)
      return [
        issue('body.consignment', {
          expected: 'a consignment not yet received by the laboratory',
          received: consignment,
        }),
      ]
    if (!state.fieldwork.samples.has(label))
      return [issue('body.label', { expected: 'the label of a collected sample', received: label })]
    const place = state.custody.consignmentOf.get(label)
    return place === undefined
      ? []
      : [issue('body.label', { expected: 'a sample that is in no consignment', received: `${label}, now in ${place}` })]
  })
}

const unpackable: Rule<'sample.unpacked'> = ({ body: { consignment, label } }, { state, amends }) => {
  if (amends !== undefined) return [eventsStand('sample.unpacked')]
  return within({ state, consignment }, (box) => {
    if (box.seal !== undefined)
      return [
        issue('body.consignment', { expected: 'a consignment whose seal was opened first', received: consignment }),
      ]
    return box.labels.has(label)
      ? []
      : [issue('body.label', { expected: `a sample in ${consignment}`, received: label })]
  })
}

const sealable: Rule<'consignment.sealed'> = ({ body: { consignment } }, { state, amends }) =>
  within({ state, consignment }, (box) => {
    if (box.labels.size === 0)
      return [
        issue('body.consignment', { expected: 'a consignment with samples in it', received: `${consignment}, empty` }),
      ]
    return box.seal === undefined || amends === box.seal.id
      ? []
      : [
          issue('body.consignment', {
            expected: 'a consignment that is not sealed',
            received: `${consignment}, seal ${box.seal.body.seal}`,
          }),
        ]
  })

const sealWasUsed: Rule<'consignment.sealed'> = ({ body: { seal } }, { state, amends }) => {
  const used = [...state.custody.consignments.values()].some(({ events }) =>
    events.some((event) => event.kind === 'consignment.sealed' && event.body.seal === seal && event.id !== amends),
  )
  return used ? [issue('body.seal', { expected: 'a seal number not used before', received: seal })] : []
}

const sealToOpen: Rule<'seal.opened'> = ({ body: { consignment } }, { state }) =>
  within({ state, consignment }, (box) =>
    box.seal === undefined
      ? [issue('body.consignment', { expected: 'a sealed consignment', received: consignment })]
      : [],
  )

const handedOnByHolder: Rule<'consignment.handed-over'> = ({ body: { consignment, from, to } }, { state, amends }) =>
  within({ state, consignment }, (box) => {
    const issues: Issue[] = []
    if (box.received !== undefined && amends === undefined)
      issues.push(
        issue('body.consignment', {
          expected: 'a consignment not yet received by the laboratory',
          received: consignment,
        }),
      )
    const holder = holderOf(box, amends)
    if (holder !== undefined && holder.name !== from.name)
      issues.push(issue('body.from.name', { expected: `${holder.name}, who holds it`, received: from.name }))
    if (from.name === to.name)
      issues.push(issue('body.to.name', { expected: 'someone else than the giver', received: to.name }))
    return issues
  })

const receivedWhole: Rule<'consignment.received'> = ({ body: { consignment, samples } }, { state, amends }) =>
  within({ state, consignment }, (box) => {
    if (box.received !== undefined && box.received.id !== amends)
      return [issue('body.consignment', { expected: 'a consignment not yet received', received: consignment })]
    const listed = new Set(samples.map(({ label }) => label))
    const missing = [...box.labels].filter((label) => !listed.has(label))
    const strange = [...listed].filter((label) => !box.labels.has(label))
    return [
      ...missing.map((label) => issue('body.samples', { expected: `the condition of ${label}`, received: undefined })),
      ...strange.map((label) => issue('body.samples', { expected: `only samples in ${consignment}`, received: label })),
    ]
  })

const openedBefore: Rule<'temperature.logged'> = ({ body: { consignment } }, { state }) =>
  within({ state, consignment }, () => [])

type TimedKind =
  | 'consignment.sealed'
  | 'seal.opened'
  | 'temperature.logged'
  | 'consignment.handed-over'
  | 'consignment.received'

const MINUTE_MS = 60_000

/** Times are given to the minute, so a sample may be collected within the minute given. */
const timeIsPossible: Rule<TimedKind> = ({ body, instant }, { state }) => {
  if (body.at === undefined) return []
  if (body.at > instant) return [issue('body.at', { expected: 'a moment that has come', received: body.at })]
  const box = state.custody.consignments.get(body.consignment)
  const collected = [...(box?.labels ?? [])]
    .flatMap((label) => state.fieldwork.samples.get(label) ?? [])
    .map((sample) => sample.instant)
    .sort()
    .at(-1)
  if (collected === undefined || Date.parse(body.at) + MINUTE_MS > Date.parse(collected)) return []
  return [
    issue('body.at', { expected: `${collected} or later, when its last sample was collected`, received: body.at }),
  ]
}

/** What happens to a consignment happens after what was last written of it, as far as both say when. */
const afterTheOneBefore: Rule<'consignment.handed-over' | 'consignment.received'> = (entry, { state, amends }) => {
  if (amends !== undefined) return []
  const box = state.custody.consignments.get(entry.body.consignment)
  const before = box?.events.findLast(({ kind }) => kind === 'consignment.handed-over')
  const since = before === undefined ? undefined : happenedAt(before)
  if (since === undefined || Date.parse(happenedAt(entry)) + MINUTE_MS > Date.parse(since)) return []
  return [issue('body.at', { expected: `${since} or later, the hand-over before`, received: happenedAt(entry) })]
}

/** Who holds a consignment: the last receiver of a hand-over; nobody yet before the first one. */
export function holderOf(box: Consignment, besides?: string): { name: string; role: string } | undefined {
  const last = box.events.findLast((event) => event.kind === 'consignment.handed-over' && event.id !== besides)
  return last?.kind === 'consignment.handed-over' ? last.body.to : undefined
}

function within(
  { state, consignment }: { state: InvestigationState; consignment: string },
  judge: (box: Consignment) => Issue[],
): Issue[] {
  const box = state.custody.consignments.get(consignment)
  return box === undefined
    ? [issue('body.consignment', { expected: 'the code of an opened consignment', received: consignment })]
    : judge(box)
}

/** What happened to a sample is undone by the opposite act, so that where it was at each moment stays readable. */
function eventsStand(kind: string): Issue {
  return issue('corrects', { expected: 'the opposite act instead of an amendment', received: kind })
}

export const custodyRules: Rules = {
  'consignment.opened': [codeIsNew],
  'sample.packed': [packable],
  'sample.unpacked': [unpackable],
  'consignment.sealed': [sealable, sealWasUsed, timeIsPossible],
  'seal.opened': [sealToOpen, timeIsPossible],
  'temperature.logged': [openedBefore, timeIsPossible],
  'consignment.handed-over': [handedOnByHolder, timeIsPossible, afterTheOneBefore],
  'consignment.received': [receivedWhole, timeIsPossible, afterTheOneBefore],
}
