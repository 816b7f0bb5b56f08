import type { Procedure } from '../procedures/procedure.ts'
import { findProcedure, PROCEDURES } from '../procedures/procedures.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** Procedures a user added to this investigation, the latest first: they come before the built-in ones. */
export function ownProcedures({ plan }: InvestigationState): readonly Procedure[] {
  return [...plan.procedures.values()].map(({ body }) => body.procedure).toReversed()
}

/** Every procedure that can be planned here: the user's own, then the built-in ones that none of them replaces. */
export function proceduresIn(state: InvestigationState): readonly Procedure[] {
  const own = ownProcedures(state)
  const replaced = new Set(own.map(({ id }) => id))
  return [...own, ...PROCEDURES.filter(({ id }) => !replaced.has(id))]
}

/** A procedure by id, as it is used in this investigation. */
export function procedureIn(state: InvestigationState, id: string): Procedure | undefined {
  return findProcedure(id, ownProcedures(state))
}
