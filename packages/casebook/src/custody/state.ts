import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import type { Appliers, EffectiveEntry } from '../state/effective.ts'
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

export type CustodyEvent =
  | EffectiveEntry<'sample.packed'>
  | EffectiveEntry<'sample.unpacked'>
  | EffectiveEntry<'consignment.sealed'>
  | EffectiveEntry<'seal.opened'>
  | EffectiveEntry<'temperature.logged'>
  | EffectiveEntry<'consignment.handed-over'>
  | EffectiveEntry<'consignment.accepted'>
  | EffectiveEntry<'consignment.received'>

export interface Consignment {
  readonly code: string
  readonly opened: EffectiveEntry<'consignment.opened'>
  /** labels in it now, in the order packed */
  readonly labels: Set<string>
  /** everything that happened to it, in order */
  readonly events: CustodyEvent[]
  seal: EffectiveEntry<'consignment.sealed'> | undefined
  received: EffectiveEntry<'consignment.received'> | undefined
}

/** An entry of the record that does not fit what was written before it, and therefore does not count. */
export interface CustodyConflict {
  readonly entry: EffectiveEntry
  readonly issues: readonly Issue[]
}

export interface CustodyState {
  readonly consignments: Map<string, Consignment>
  /** where a label is now */
  readonly consignmentOf: Map<string, string>
  /** parts of samples, by their own label */
  readonly splits: Map<string, EffectiveEntry<'sample.split'>>
  readonly conflicts: CustodyConflict[]
}

export const emptyCustody = (): CustodyState => ({
  consignments: new Map(),
  consignmentOf: new Map(),
  splits: new Map(),
  conflicts: [],
})

/** Entries come here by the door of the rules; one that came another way (an import, a settled contest) and does not fit is told and does not count, so that no record puts a sample in two places. */
function guarded<K extends Kind>(
  objects: (state: CustodyState, body: BodyOf<K>) => Issue[],
  act: (state: CustodyState, entry: EffectiveEntry<K>) => void,
): (state: CustodyState, entry: EffectiveEntry<K>) => void {
  return (state, entry) => {
    const issues = objects(state, entry.body)
    if (issues.length === 0) act(state, entry)
    else state.conflicts.push({ entry, issues })
  }
}

function boxOf(state: CustodyState, event: CustodyEvent): Consignment {
  const box = state.consignments.get(event.body.consignment)
  if (box === undefined) throw new TypeError(`Cannot keep an event because no consignment is ${event.body.consignment}`)
  box.events.push(event)
  return box
}

export const custodyAppliers: Appliers<CustodyState> = {
  'consignment.opened': guarded<'consignment.opened'>(codeIsNew, (state, entry) => {
    const { consignment: code } = entry.body
    state.consignments.set(code, {
      code,
      opened: entry,
      labels: new Set(),
      events: [],
      seal: undefined,
      received: undefined,
    })
  }),
  'sample.packed': guarded<'sample.packed'>(canPack, (state, entry) => {
    const { code, labels } = boxOf(state, entry)
    labels.add(entry.body.label)
    state.consignmentOf.set(entry.body.label, code)
  }),
  'sample.unpacked': guarded<'sample.unpacked'>(canUnpack, (state, entry) => {
    boxOf(state, entry).labels.delete(entry.body.label)
    state.consignmentOf.delete(entry.body.label)
  }),
  'consignment.sealed': guarded<'consignment.sealed'>(canSeal, (state, entry) => {
    boxOf(state, entry).seal = entry
  }),
  'seal.opened': guarded<'seal.opened'>(canOpenSeal, (state, entry) => {
    boxOf(state, entry).seal = undefined
  }),
  'temperature.logged': guarded<'temperature.logged'>(isOpened, boxOf),
  'consignment.handed-over': guarded<'consignment.handed-over'>(canHandOver, boxOf),
  'consignment.accepted': guarded<'consignment.accepted'>(canAccept, boxOf),
  'consignment.received': guarded<'consignment.received'>(canReceive, (state, entry) => {
    boxOf(state, entry).received = entry
  }),
  'sample.split': guarded<'sample.split'>(canSplit, (state, entry) => {
    state.splits.set(entry.body.split, entry)
  }),
}
