import { fitInUse } from '../calibration/fit-in-use.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { systemEntryOf } from './system-entry.ts'

export interface LatestPrediction {
  readonly entry: EffectiveEntry<'prediction.recorded'>
  /** true when the described building or the fitted values changed since: it speaks of a building as it was */
  readonly stale: boolean
  /** what changed since, where anything did */
  readonly changed?: 'description' | 'fitted values'
}

/** The latest prediction in force, and whether the building it speaks of is still the one described. */
export function latestPrediction(state: InvestigationState): LatestPrediction | undefined {
  const entry = state.building.predictions.at(-1)
  if (entry === undefined) return undefined
  if (entry.body.system !== systemEntryOf(state.record)) return { entry, stale: true, changed: 'description' }
  if (entry.body.fit !== fitInUse(state)?.id) return { entry, stale: true, changed: 'fitted values' }
  return { entry, stale: false }
}
