import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Entry, EntryOf } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import {
  canAccept,
  canHandOver,
  canOpenSeal,
  canPack,
  canReceive,
  canSeal,
  canSplit,
  canUnpack,
  codeIsNew,
  isOpened,
} from './objections.ts'
import { acceptedByReceiver } from './rules-accept.ts'
import { historyBreaks, noSplitHasLabel, packedLabelStays, withdrawalFits } from './rules-history.ts'
import { seriesIsSound } from './rules-series.ts'
import { splitLabelIsFree, splitLabelsStay, splitLeavesSome, splitsASample } from './rules-split.ts'
import { afterTheOneBefore, splitAfterCollection, timeIsPossible } from './rules-times.ts'
import type { CustodyState } from './state.ts'

/** An act is judged by the custody as it stands; an amended one by the whole history with it. */
function fits<K extends Kind>(objects: (custody: CustodyState, body: BodyOf<K>) => Issue[]): Rule<K> {
  return (entry: EntryOf<K>, { state, amends }) =>
    amends === undefined ? objects(state.custody, entry.body) : historyBreaks(entry as unknown as Entry, state)
}

/** What happened to a sample is undone by the opposite act, so that where it was at each moment stays readable. */
const eventStands: Rule<'sample.packed' | 'sample.unpacked'> = ({ kind }, { amends }) =>
  amends === undefined
    ? []
    : [issue('corrects', { expected: 'the opposite act instead of an amendment', received: kind })]

const packsASample: Rule<'sample.packed'> = ({ body: { label } }, { state }) =>
  state.fieldwork.samples.has(label) || state.custody.splits.has(label)
    ? []
    : [issue('body.label', { expected: 'the label of a collected sample', received: label })]

const noneRejectedAndAccepted: Rule<'consignment.received'> = ({ body: { samples } }) =>
  samples.flatMap(({ label, condition, rejected }, index) => {
    if (condition === 'accepted' && rejected === true)
      return [issue(`body.samples.${index}.condition`, { expected: `why ${label} was rejected`, received: condition })]
    if (condition === 'not in the box' && rejected === false)
      return [issue(`body.samples.${index}.rejected`, { expected: `${label} rejected`, received: condition })]
    return []
  })

export const custodyRules: Rules = {
  'consignment.opened': [fits(codeIsNew)],
  'sample.packed': [eventStands, fits(canPack), packsASample],
  'sample.unpacked': [eventStands, fits(canUnpack)],
  'consignment.sealed': [fits(canSeal), timeIsPossible],
  'seal.opened': [fits(canOpenSeal), timeIsPossible],
  'temperature.logged': [fits(isOpened), seriesIsSound, timeIsPossible],
  'consignment.handed-over': [fits(canHandOver), timeIsPossible, afterTheOneBefore],
  'consignment.accepted': [fits(canAccept), acceptedByReceiver, timeIsPossible, afterTheOneBefore],
  'consignment.received': [fits(canReceive), noneRejectedAndAccepted, timeIsPossible, afterTheOneBefore],
  'sample.split': [
    splitsASample,
    fits(canSplit),
    splitLabelIsFree,
    splitLabelsStay,
    splitLeavesSome,
    splitAfterCollection,
  ],
  'sample.collected': [noSplitHasLabel, packedLabelStays],
  'sample.registered': [noSplitHasLabel],
  'entry.withdrawn': [withdrawalFits],
}
