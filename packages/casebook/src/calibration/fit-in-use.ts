import type { WaterSystem } from '../building/water-system.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'
import { systemEntryOf } from '../conditions/system-entry.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { everyInput } from './inputs.ts'
import { mergeOverrides } from './merge-overrides.ts'
import { reasonOfId } from './reasons.ts'

export interface LatestFit {
  readonly entry: EffectiveEntry<'fit.accepted'>
  /** true when the described building changed since: its values are no longer taken */
  readonly stale: boolean
}

/** The fit taken over last that was not withdrawn, and whether the building is still described as it was then. */
export function latestFit(state: InvestigationState): LatestFit | undefined {
  const entry = state.building.fits.at(-1)
  return entry === undefined ? undefined : { entry, stale: entry.body.system !== systemEntryOf(state.record) }
}

/** The fit whose values predictions take: the latest, as long as the building is described as it was then. */
export function fitInUse(state: InvestigationState): EffectiveEntry<'fit.accepted'> | undefined {
  const latest = latestFit(state)
  return latest?.stale === false ? latest.entry : undefined
}

/** What of a fit says how to simulate the building as fitted; an accepted fit does. */
export interface FittedValues {
  readonly inputs: readonly { readonly id: string; readonly fitted: { readonly value: number } }[]
  readonly found: readonly { readonly id: string; readonly size?: { readonly value: number } | undefined }[]
}

/** What to simulate a building with as fitted. Ids the building does not have set nothing. */
export function fittedOverrides(system: WaterSystem, { inputs, found }: FittedValues): ConditionsOverrides {
  const known = new Map(everyInput(system).map((one) => [one.id, one]))
  return mergeOverrides([
    ...inputs.map(({ id, fitted }): ConditionsOverrides => known.get(id)?.override(fitted.value) ?? {}),
    ...found.map(({ id, size }): ConditionsOverrides => reasonOfId(system, id)?.override(size?.value) ?? {}),
  ])
}
