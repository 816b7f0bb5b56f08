import { ASSUMED } from './assumptions.ts'
import { buildPlant } from './build-plant.ts'
import { buildRisers } from './build-risers.ts'
import { plannedOutlets } from './outlet-rooms.ts'
import type { BuildingShape, QuickDescription } from './quick-description.ts'
import { shapeOf } from './quick-description.ts'
import type { Supply, WaterSystem } from './water-system.ts'
import { WATER_SYSTEM_FORMAT } from './water-system.ts'

/**
 * The full water system a quick description stands for: plant, a main, risers, a branch to every outlet, returns.
 *
 * Coarse on purpose and to be refined on site: whatever the description does not say is filled in from
 * `reference/building/assumptions.json` and marked `guessed`; what it says is marked `told`. Every outlet gets its own
 * branch from its floor, so no water is assumed shared on a branch. The same description always gives the same ids.
 *
 * @example buildSystem({ name: 'Two floors', floors: 2, risers: 1, outlets: { shower: 1 }, … }).components.length
 */
export function buildSystem(description: QuickDescription): WaterSystem {
  const shape = shapeOf(description)
  const outlets = plannedOutlets(description, shape)
  const plant = buildPlant({ description, shape, outlets })
  const risers = buildRisers({ description, shape, outlets })
  return {
    format: WATER_SYSTEM_FORMAT,
    name: description.name,
    ambientC: ASSUMED.ambientC,
    supply: supplyOf(description),
    floors: floorNames(description, shape),
    plantPosition: shape.plantPosition,
    provenance: { default: 'told', ambientC: 'guessed', plantPosition: description.plant ? 'told' : 'guessed' },
    components: [...plant.components, ...risers.components],
    pipes: [...plant.pipes, ...risers.pipes],
  }
}

function supplyOf({ supply }: QuickDescription): Supply {
  const { disinfectant: kind, residualMgPerL, temperatureC, pH } = supply
  return {
    temperatureC: temperatureC ?? ASSUMED.supplyC,
    ...(pH === undefined ? {} : { pH }),
    disinfectant: residualMgPerL === undefined ? { kind } : { kind, residualMgPerL },
    provenance: { default: 'told', temperatureC: temperatureC === undefined ? 'guessed' : 'told' },
  }
}

function floorNames(description: QuickDescription, shape: BuildingShape): { floor: number; name: string }[] {
  const given = typeof description.floors === 'number' ? [] : (description.floors.names ?? [])
  return [...given.filter((one) => one.floor !== shape.plantFloor), plantName(description, shape)].sort(
    (a, b) => a.floor - b.floor,
  )
}

const plantName = (description: QuickDescription, shape: BuildingShape): { floor: number; name: string } => ({
  floor: shape.plantFloor,
  name: description.plant?.name ?? 'Plant',
})
