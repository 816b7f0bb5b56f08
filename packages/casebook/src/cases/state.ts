import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface CasesState {
  /** by case code */
  readonly cases: Map<string, EffectiveEntry<'case.recorded'>>
  readonly exposures: EffectiveEntry<'exposure.recorded'>[]
  /** the incubation definition in use, if one was chosen */
  incubation: EffectiveEntry<'incubation.chosen'> | undefined
}

export const emptyCases = (): CasesState => ({ cases: new Map(), exposures: [], incubation: undefined })

export const casesAppliers: Appliers<CasesState> = {
  'case.recorded': (state, entry) => {
    state.cases.set(entry.body.code, entry)
  },
  'exposure.recorded': (state, entry) => {
    state.exposures.push(entry)
  },
  'incubation.chosen': (state, entry) => {
    state.incubation = entry
  },
}
