import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface FindingsState {
  criteria: EffectiveEntry<'criteria.chosen'> | undefined
  readonly conclusions: EffectiveEntry<'finding.concluded'>[]
}

export const emptyFindings = (): FindingsState => ({ criteria: undefined, conclusions: [] })

export const findingsAppliers: Appliers<FindingsState> = {
  'criteria.chosen': (state, entry) => {
    state.criteria = entry
  },
  'finding.concluded': (state, entry) => {
    state.conclusions.push(entry)
  },
}
