import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule } from '../rules/rule.ts'
import { happenedAt } from './happened-at.ts'
import { originOf } from './origin.ts'

type TimedKind =
  | 'consignment.sealed'
  | 'seal.opened'
  | 'temperature.logged'
  | 'consignment.handed-over'
  | 'consignment.accepted'
  | 'consignment.received'

const MINUTE_MS = 60_000

/** Times are given to the minute, so a sample may be collected within the minute given. */
export const timeIsPossible: Rule<TimedKind> = ({ body, instant }, { state }) => {
  if (body.at === undefined) return []
  if (body.at > instant) return [issue('body.at', { expected: 'a moment that has come', received: body.at })]
  const box = state.custody.consignments.get(body.consignment)
  const collected = [...(box?.labels ?? [])]
    .flatMap((label) => originOf(state, label) ?? [])
    .map(({ sample }) => sample.instant)
    .sort()
    .at(-1)
  if (collected === undefined || Date.parse(body.at) + MINUTE_MS > Date.parse(collected)) return []
  return [
    issue('body.at', { expected: `${collected} or later, when its last sample was collected`, received: body.at }),
  ]
}

/**
 * What happens to a consignment happens after the hand-over before it, as far as both say when. What another device writes down as it happens
 * is not refused for its clock: that they disagree is told as a doubt.
 */
export const afterTheOneBefore: Rule<'consignment.handed-over' | 'consignment.accepted' | 'consignment.received'> = (
  entry,
  { state, amends },
) => {
  if (amends !== undefined) return []
  const box = state.custody.consignments.get(entry.body.consignment)
  const before = box?.events.findLast(({ kind }) => kind === 'consignment.handed-over')
  if (entry.body.at === undefined && before?.device !== entry.device) return []
  const since = before === undefined ? undefined : happenedAt(before)
  if (since === undefined || Date.parse(happenedAt(entry)) + MINUTE_MS > Date.parse(since)) return []
  return [issue('body.at', { expected: `${since} or later, the hand-over before`, received: happenedAt(entry) })]
}

/** A split is made of water that was collected, and not ahead of the writing. */
export const splitAfterCollection: Rule<'sample.split'> = ({ body, instant }, { state }) => {
  if (body.at === undefined) return []
  if (body.at > instant) return [issue('body.at', { expected: 'a moment that has come', received: body.at })]
  const collected = originOf(state, body.label)?.sample.instant
  if (collected === undefined || Date.parse(body.at) + MINUTE_MS > Date.parse(collected)) return []
  return [issue('body.at', { expected: `${collected} or later, when it was collected`, received: body.at })]
}
