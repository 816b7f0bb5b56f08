import { predictionOf } from '@rillmark/casebook/conditions/prediction-of.ts'
import { simulateConditions } from '@rillmark/casebook/conditions/simulate-conditions.ts'
import { systemEntryOf } from '@rillmark/casebook/conditions/system-entry.ts'
import type { DemoDesk } from '../desk.ts'

/** Curves in half hours, as the app keeps them. */
const SLOTS = 48

/** The house as it is described by then, simulated and put into the record. */
export function recordPrediction(desk: DemoDesk, { at, note }: { at: string; note: string }): void {
  const { system } = desk.state.building
  const systemEntry = systemEntryOf(desk.state.record)
  if (system === undefined || systemEntry === undefined)
    throw new Error('The example predicts before the building is described')
  const answer = simulateConditions(system, { slots: SLOTS })
  if (answer.kind === 'cannot-say')
    throw new Error(
      `The example can't be simulated: ${answer.reasons.map(({ at: where, why }) => `${where}: ${why}`).join('; ')}`,
    )
  const { conditions, series } = answer
  desk.write('prediction.recorded', predictionOf({ system, systemEntry, conditions, series, note }), { at })
}
