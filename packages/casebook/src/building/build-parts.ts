import { assumedHot } from './assumptions.ts'
import type { BuildingShape, QuickDescription } from './quick-description.ts'
import type { Component, ComponentKind, Pipe } from './water-system.ts'

/** An outlet the description asks for, with the id and room it will carry. */
export interface PlannedOutlet {
  id: string
  kind: ComponentKind
  floor: number
  riser: string
  room: string
  /** 0 for the first outlet on the branch of its floor and riser. */
  position: number
}

export interface BuildInput {
  description: QuickDescription
  shape: BuildingShape
  outlets: readonly PlannedOutlet[]
}

export interface SystemParts {
  components: Component[]
  pipes: Pipe[]
}

/** The risers on which at least one outlet is assumed to have hot water. */
export const hotRisers = ({ shape, outlets }: BuildInput): string[] =>
  shape.risers.filter((riser) => outlets.some((outlet) => outlet.riser === riser && assumedHot(outlet.kind)))
