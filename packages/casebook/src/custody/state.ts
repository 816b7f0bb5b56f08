import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export type CustodyEvent =
  | EffectiveEntry<'sample.packed'>
  | EffectiveEntry<'sample.unpacked'>
  | EffectiveEntry<'consignment.sealed'>
  | EffectiveEntry<'seal.opened'>
  | EffectiveEntry<'temperature.logged'>
  | EffectiveEntry<'consignment.handed-over'>
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

export interface CustodyState {
  readonly consignments: Map<string, Consignment>
  /** where a label is now */
  readonly consignmentOf: Map<string, string>
}

export const emptyCustody = (): CustodyState => ({ consignments: new Map(), consignmentOf: new Map() })

function keep(state: CustodyState, event: CustodyEvent): Consignment | undefined {
  const consignment = state.consignments.get(event.body.consignment)
  consignment?.events.push(event)
  return consignment
}

export const custodyAppliers: Appliers<CustodyState> = {
  'consignment.opened': (state, entry) => {
    const { consignment: code } = entry.body
    if (!state.consignments.has(code))
      state.consignments.set(code, {
        code,
        opened: entry,
        labels: new Set(),
        events: [],
        seal: undefined,
        received: undefined,
      })
  },
  'sample.packed': (state, entry) => {
    const consignment = keep(state, entry)
    if (consignment === undefined) return
    consignment.labels.add(entry.body.label)
    state.consignmentOf.set(entry.body.label, consignment.code)
  },
  'sample.unpacked': (state, entry) => {
    keep(state, entry)?.labels.delete(entry.body.label)
    state.consignmentOf.delete(entry.body.label)
  },
  'consignment.sealed': (state, entry) => {
    const consignment = keep(state, entry)
    if (consignment !== undefined) consignment.seal = entry
  },
  'seal.opened': (state, entry) => {
    const consignment = keep(state, entry)
    if (consignment !== undefined) consignment.seal = undefined
  },
  'temperature.logged': (state, entry) => {
    keep(state, entry)
  },
  'consignment.handed-over': (state, entry) => {
    keep(state, entry)
  },
  'consignment.received': (state, entry) => {
    const consignment = keep(state, entry)
    if (consignment !== undefined) consignment.received = entry
  },
}
