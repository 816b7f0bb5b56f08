import type { Circuit, Component } from '../building/water-system.ts'
import type { Measures } from './measures.ts'
import type { PlantSide, SortedParts } from './sort-parts.ts'

export interface Point {
  x: number
  y: number
}

/** Where a component stands and how pipes come to it. */
export interface Spot extends Point {
  component: Component
  role: 'outlet' | 'valve' | 'riser-junction' | 'tee' | 'bus-junction' | 'equipment' | 'hidden'
  /** The floor and riser it is drawn in; absent in a plant. */
  cell?: { floor: number; riser: string }
  plant?: PlantSide
}

export interface FloorRow {
  floor: number
  label: string
  top: number
  /** The y of the floor's line. */
  line: number
  headY: number
}

export interface Column {
  riser: string
  label: string
  left: number
  right: number
  lanes: ReadonlyMap<Circuit, number>
  /** The x of the first outlet's slot. */
  outletsLeft: number
}

/** Outlets of one floor and riser drawn as one counted box. */
export interface Group {
  floor: number
  riser: string
  outlets: readonly Component[]
  left: number
  top: number
  width: number
  height: number
}

export interface PlantBand {
  side: PlantSide
  label: string
  top: number
  bottom: number
  /** The y of the line each circuit shares. */
  buses: ReadonlyMap<Circuit, number>
  /** The y of the line behind the equipment, for pipes from one to the other. */
  backY: number
  /** +1 where the equipment stands below the shared lines, −1 above. */
  outwards: 1 | -1
}

/** The positions of everything on the drawing. */
export interface Layout {
  width: number
  height: number
  measures: Measures
  sorted: SortedParts
  floors: readonly FloorRow[]
  columns: readonly Column[]
  plants: readonly PlantBand[]
  spots: ReadonlyMap<string, Spot>
  groups: readonly Group[]
  routes: readonly Route[]
}

/** What is known while places are being given. */
export interface Placing {
  sorted: SortedParts
  measures: Measures
  floors: readonly FloorRow[]
  columns: readonly Column[]
  spots: Map<string, Spot>
}

/** The line of one pipe, or of all pipes into a counted group that run the same way. */
export interface Route {
  pipes: string[]
  circuit: Circuit
  points: Point[]
}
