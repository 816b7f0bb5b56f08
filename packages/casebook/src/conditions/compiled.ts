import type { Network } from '@rillmark/science/network/network.ts'
import type { Circuit } from '../building/water-system.ts'
import type { Assumption, CannotSay } from './conditions.ts'

/** The circuits that bring water to a place; a return takes it away. */
export type Arriving = Exclude<Circuit, 'hot-return'>

/** Where a component went in the network. */
export interface PlacedComponent {
  /** The node that stands for it; of a mixing valve the one it sends its water out by. Outlets have ports only. */
  node?: number | undefined
  /** Outlets and mixing valves: the node of each circuit that is joined to it. */
  circuits: Partial<Record<Arriving, number>>
  /** Index in the network's list of outlets. */
  outlet?: number | undefined
}

export interface PlacedPipe {
  pipe: number
  /** True where the network has it the other way round than `from` and `to` of the description. */
  turned: boolean
}

/** From the ids of a description to the indexes of its network; parts that were left out are missing. */
export interface SystemMap {
  components: ReadonlyMap<string, PlacedComponent>
  pipes: ReadonlyMap<string, PlacedPipe>
}

export interface Compiled {
  kind: 'compiled'
  network: Network
  map: SystemMap
  assumptions: readonly Assumption[]
  /** Parts that were left out, and why. */
  cannotSay: readonly CannotSay[]
  cautions: readonly string[]
  /** False where nothing was said of the supply's residual; it is then computed as none. */
  residualKnown: boolean
}

export type Compilation = Compiled | { kind: 'cannot-say'; reasons: readonly CannotSay[] }
