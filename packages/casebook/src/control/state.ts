import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface Measure {
  readonly ordered: EffectiveEntry<'measure.ordered'>
  readonly proofs: EffectiveEntry<'measure.achieved'>[]
  completed: EffectiveEntry<'measure.completed'> | undefined
}

export interface ControlState {
  /** by id of the ordering entry */
  readonly measures: Map<string, Measure>
}

export const emptyControl = (): ControlState => ({ measures: new Map() })

export const controlAppliers: Appliers<ControlState> = {
  'measure.ordered': (state, entry) => {
    state.measures.set(entry.id, { ordered: entry, proofs: [], completed: undefined })
  },
  'measure.achieved': (state, entry) => {
    state.measures.get(entry.body.measure)?.proofs.push(entry)
  },
  'measure.completed': (state, entry) => {
    const measure = state.measures.get(entry.body.measure)
    if (measure !== undefined) measure.completed = entry
  },
}
