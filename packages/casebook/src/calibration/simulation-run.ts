import type { SimulatedDay } from '@rillmark/science/network/day-result.ts'
import type { Network } from '@rillmark/science/network/network.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { SystemMap } from '../conditions/compiled.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'

/** One run of the simulation, in the terms of its network. */
export interface SimulationRun {
  network: Network
  map: SystemMap
  day: SimulatedDay
}

/** Runs the simulation; undefined where nothing can be said of the building. */
export type RunSimulation = (system: WaterSystem, overrides: ConditionsOverrides) => SimulationRun | undefined
