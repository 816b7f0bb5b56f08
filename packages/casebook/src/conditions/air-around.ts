import table from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
import type { Component, Pipe } from '../building/water-system.ts'
import type { NetworkDraft } from './network-draft.ts'

const { lower: COLDEST_AIR_C, upper: WARMEST_AIR_C } = table.airC

/** The air around a pipe, tank or heater (°C): its own, else the building's, else filled in. */
export function airAroundC(draft: NetworkDraft, part: Component | Pipe): number {
  const { ambientShiftK = 0 } = draft.overrides
  const airC = describedAirC(draft, part) + ambientShiftK
  if (airC < COLDEST_AIR_C)
    draft.cautions.add(`Air below ${COLDEST_AIR_C} °C is taken as ${COLDEST_AIR_C} °C: freezing is not simulated.`)
  if (airC > WARMEST_AIR_C)
    draft.cautions.add(`Air above ${WARMEST_AIR_C} °C is taken as ${WARMEST_AIR_C} °C: check what is described.`)
  return Math.min(Math.max(airC, COLDEST_AIR_C), WARMEST_AIR_C)
}

function describedAirC(draft: NetworkDraft, part: Component | Pipe): number {
  const { system } = draft
  if (part.ambientC !== undefined) return draft.described(part, { fact: 'ambientC', value: part.ambientC })
  if (system.ambientC === undefined) return draft.fillIn('ambientC', part.id)
  const building = { id: part.id, provenance: system.provenance }
  return draft.described(building, { fact: 'ambientC', value: system.ambientC })
}
