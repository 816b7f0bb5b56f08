import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface PlanState {
  /** a user's own procedures by id */
  readonly procedures: Map<string, EffectiveEntry<'procedure.added'>>
  /** adopted plans by round (R1, R2 …), in the order adopted */
  readonly rounds: Map<string, EffectiveEntry<'plan.adopted'>>
}

export const emptyPlan = (): PlanState => ({ procedures: new Map(), rounds: new Map() })

export const planAppliers: Appliers<PlanState> = {
  'procedure.added': (state, entry) => {
    state.procedures.set(entry.body.procedure.id, entry)
  },
  'plan.adopted': (state, entry) => {
    state.rounds.set(entry.body.round, entry)
  },
}
