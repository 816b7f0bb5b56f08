import { isRoomOf } from '../building/named-place.ts'
import { type Component, isOutlet } from '../building/water-system.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { type PartsOf, type SharedPlace, sharedPlaces } from './shared-places.ts'

/** The places the cases share, with the risers and floors of the described building that their rooms hang on. */
export function sharedParts({ cases, building }: InvestigationState): SharedPlace[] {
  const outlets = (building.system?.components ?? []).filter(isOutlet)
  return sharedPlaces(cases, outlets.length === 0 ? undefined : partsAmong(outlets))
}

function partsAmong(outlets: readonly Component[]): PartsOf {
  const known = new Map<string, readonly string[]>()
  return ({ place, component }) => {
    const key = component ?? place
    const parts =
      known.get(key) ??
      partsOf(outlets.filter((one) => (component === undefined ? isRoomOf(one, place) : one.id === component)))
    known.set(key, parts)
    return parts
  }
}

function partsOf(found: readonly Component[]): string[] {
  const risers = found.flatMap(({ riser }) => (riser === undefined ? [] : [`Riser ${riser}`]))
  const floors = found.flatMap(({ floor }) => (floor === undefined ? [] : [`Floor ${floor}`]))
  return [...new Set([...risers, ...floors])]
}
