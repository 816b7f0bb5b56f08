import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface PlanState {
  /** adopted plans by round (R1, R2 …), in the order adopted; adopting again replaces the round's plan */
  readonly rounds: Map<string, EffectiveEntry<'plan.adopted'>>
}

export const emptyPlan = (): PlanState => ({ rounds: new Map() })

export const planAppliers: Appliers<PlanState> = {
  'plan.adopted': (state, entry) => {
    state.rounds.set(entry.body.round, entry)
  },
}
