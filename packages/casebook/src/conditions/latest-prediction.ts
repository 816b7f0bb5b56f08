import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { systemEntryOf } from './system-entry.ts'

export interface LatestPrediction {
  readonly entry: EffectiveEntry<'prediction.recorded'>
  /** true when the described building changed since: it speaks of a building as it was */
  readonly stale: boolean
}

/** The latest prediction in force, and whether the building it speaks of is still the one described. */
export function latestPrediction(state: InvestigationState): LatestPrediction | undefined {
  const entry = state.building.predictions.at(-1)
  return entry === undefined ? undefined : { entry, stale: entry.body.system !== systemEntryOf(state.record) }
}
