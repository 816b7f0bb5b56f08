import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface ResultsState {
  readonly imports: EffectiveEntry<'results.imported'>[]
  /** samples taken by others, by label */
  readonly registered: Map<string, EffectiveEntry<'sample.registered'>>
  readonly results: EffectiveEntry<'result.reported'>[]
  readonly resultsByLabel: Map<string, EffectiveEntry<'result.reported'>[]>
  /** by isolate code */
  readonly isolates: Map<string, EffectiveEntry<'isolate.recorded'>>
}

export const emptyResults = (): ResultsState => ({
  imports: [],
  registered: new Map(),
  results: [],
  resultsByLabel: new Map(),
  isolates: new Map(),
})

export const resultsAppliers: Appliers<ResultsState> = {
  'results.imported': (state, entry) => {
    state.imports.push(entry)
  },
  'sample.registered': (state, entry) => {
    state.registered.set(entry.body.label, entry)
  },
  'result.reported': (state, entry) => {
    state.results.push(entry)
    const { label } = entry.body
    const others = state.resultsByLabel.get(label)
    if (others === undefined) state.resultsByLabel.set(label, [entry])
    else others.push(entry)
  },
  'isolate.recorded': (state, entry) => {
    state.isolates.set(entry.body.code, entry)
  },
}
