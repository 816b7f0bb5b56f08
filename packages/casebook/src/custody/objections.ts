import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { holderOf, waitingHandOver } from './holder.ts'
import type { Consignment, CustodyState } from './state.ts'

/** What speaks against an act in the custody as it stands. The same words refuse it at the door and keep it from counting where it got in. */
type Objects<K extends Kind> = (custody: CustodyState, body: BodyOf<K>) => Issue[]

export const codeIsNew: Objects<'consignment.opened'> = ({ consignments }, { consignment }) =>
  consignments.has(consignment)
    ? [issue('body.consignment', { expected: 'a code not used by another consignment', received: consignment })]
    : []

export const canPack: Objects<'sample.packed'> = (custody, { consignment, label }) =>
  inBox({ custody, consignment }, (box) => {
    if (box.seal !== undefined) return [notSealed(box.seal.body.seal, consignment)]
    if (box.received !== undefined) return [notReceived(consignment)]
    const place = custody.consignmentOf.get(label)
    if (place !== undefined)
      return [
        issue('body.label', { expected: 'a sample that is in no consignment', received: `${label}, now in ${place}` }),
      ]
    return forOneParty(custody, { box, label })
  })

/** A part goes to the one it was divided for, so it travels with parts for the same party and nothing else. */
function forOneParty(custody: CustodyState, { box, label }: { box: Consignment; label: string }): Issue[] {
  const partyOf = (one: string): string | undefined => custody.splits.get(one)?.body.to.name
  const party = partyOf(label)
  const other = [...box.labels].find((one) => partyOf(one) !== party)
  if (other === undefined) return []
  const inside = partyOf(other)
  return [
    statedIssue('body.consignment', {
      expected:
        party === undefined
          ? 'a box that holds no part for another party'
          : `a box with nothing but parts for ${party}`,
      received: `${box.code}, which holds ${other}${inside === undefined ? '' : ` for ${inside}`}`,
    }),
  ]
}

export const canUnpack: Objects<'sample.unpacked'> = (custody, { consignment, label }) =>
  inBox({ custody, consignment }, (box) => {
    if (box.received !== undefined) return [notReceived(consignment)]
    if (box.seal !== undefined)
      return [
        issue('body.consignment', { expected: 'a consignment whose seal was opened first', received: consignment }),
      ]
    return box.labels.has(label)
      ? []
      : [issue('body.label', { expected: `a sample in ${consignment}`, received: label })]
  })

export const canSeal: Objects<'consignment.sealed'> = (custody, { consignment, seal }) =>
  inBox({ custody, consignment }, (box) => {
    const issues: Issue[] = []
    if (box.labels.size === 0)
      issues.push(
        issue('body.consignment', { expected: 'a consignment with samples in it', received: `${consignment}, empty` }),
      )
    if (box.seal !== undefined) issues.push(notSealed(box.seal.body.seal, consignment))
    if (box.received !== undefined) issues.push(notReceived(consignment))
    const used = [...custody.consignments.values()].some(({ events }) =>
      events.some((event) => event.kind === 'consignment.sealed' && event.body.seal === seal),
    )
    if (used) issues.push(issue('body.seal', { expected: 'a seal number not used before', received: seal }))
    return issues
  })

export const canOpenSeal: Objects<'seal.opened'> = (custody, { consignment }) =>
  inBox({ custody, consignment }, (box) =>
    box.seal === undefined
      ? [issue('body.consignment', { expected: 'a sealed consignment', received: consignment })]
      : [],
  )

export const isOpened: Objects<'temperature.logged'> = (custody, { consignment }) =>
  inBox({ custody, consignment }, () => [])

export const canHandOver: Objects<'consignment.handed-over'> = (custody, { consignment, from, to }) =>
  inBox({ custody, consignment }, (box) => {
    const issues: Issue[] = []
    if (box.received !== undefined) issues.push(notReceived(consignment))
    const waiting = waitingHandOver(box)
    if (waiting !== undefined)
      issues.push(
        issue('body.consignment', {
          expected: `first the acceptance of ${waiting.body.to.name}, or that hand-over withdrawn`,
          received: `${consignment}, handed over by half`,
        }),
      )
    const holder = holderOf(box)
    if (holder !== undefined && holder.name !== from.name)
      issues.push(issue('body.from.name', { expected: `${holder.name}, who holds it`, received: from.name }))
    if (from.name === to.name)
      issues.push(issue('body.to.name', { expected: 'someone else than the giver', received: to.name }))
    return issues
  })

export const canAccept: Objects<'consignment.accepted'> = (custody, { consignment, handOver, by }) =>
  inBox({ custody, consignment }, (box) => {
    const waiting = waitingHandOver(box)
    if (waiting === undefined || waiting.id !== handOver)
      return [issue('body.handOver', { expected: 'a hand-over that waits to be accepted', received: handOver })]
    return by.name === waiting.body.to.name
      ? []
      : [issue('body.by.name', { expected: `${waiting.body.to.name}, to whom it was handed`, received: by.name })]
  })

export const canReceive: Objects<'consignment.received'> = (custody, { consignment, samples }) =>
  inBox({ custody, consignment }, (box) => {
    if (box.received !== undefined)
      return [issue('body.consignment', { expected: 'a consignment not yet received', received: consignment })]
    const listed = samples.map(({ label }) => label)
    const once = new Set(listed)
    return [
      ...[...box.labels]
        .filter((label) => !once.has(label))
        .map((label) => issue('body.samples', { expected: `the condition of ${label}`, received: undefined })),
      ...[...once]
        .filter((label) => !box.labels.has(label))
        .map((label) => issue('body.samples', { expected: `only samples in ${consignment}`, received: label })),
      ...listed
        .filter((label, index) => listed.indexOf(label) !== index)
        .map((label) => issue('body.samples', { expected: 'each sample once', received: label })),
    ]
  })

export const canSplit: Objects<'sample.split'> = (custody, { label, split }) => {
  const issues: Issue[] = []
  if (split === label || custody.splits.has(split) || custody.consignmentOf.has(split))
    issues.push(issue('body.split', { expected: 'a label no other sample has', received: split }))
  const place = custody.consignmentOf.get(label)
  const box = place === undefined ? undefined : custody.consignments.get(place)
  if (box?.seal !== undefined && box.received === undefined)
    issues.push(
      issue('body.label', { expected: 'a sample outside a sealed consignment', received: `${label}, in ${place}` }),
    )
  return issues
}

function inBox(
  { custody, consignment }: { custody: CustodyState; consignment: string },
  judge: (box: Consignment) => Issue[],
): Issue[] {
  const box = custody.consignments.get(consignment)
  return box === undefined
    ? [issue('body.consignment', { expected: 'the code of an opened consignment', received: consignment })]
    : judge(box)
}

const notSealed = (seal: string, consignment: string): Issue =>
  issue('body.consignment', { expected: 'a consignment that is not sealed', received: `${consignment}, seal ${seal}` })

const notReceived = (consignment: string): Issue =>
  issue('body.consignment', {
    expected: 'a consignment not yet received by the laboratory',
    received: consignment,
  })
