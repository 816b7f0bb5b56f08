import type { Circuit, Component } from '../building/water-system.ts'
import type { PlaceConditions } from './conditions.ts'
import { type ExplainedSystem, type TravelledPiece, travelled, waterAt } from './explained-system.ts'
import { type WaterWay, waterWay } from './water-way.ts'

/** One water of one place with the way it came. */
export interface ExplainedSide {
  readonly explained: ExplainedSystem
  /** the component, or the one a pipe ends at */
  readonly id: string
  readonly component: Component | undefined
  readonly circuit: Circuit
  readonly place: PlaceConditions
  readonly source: string
  /** the water where it set out */
  readonly start: PlaceConditions | undefined
  readonly pieces: readonly TravelledPiece[]
  /** the first pieces, up to the last that never stands */
  readonly moving: readonly TravelledPiece[]
  /** the pieces behind, in which water stands between draws */
  readonly standing: readonly TravelledPiece[]
}

export interface SideAsked {
  readonly explained: ExplainedSystem
  readonly id: string
  readonly circuit: Circuit
  readonly place: PlaceConditions
  /** where it is not the way to the component itself, as for a pipe */
  readonly way?: WaterWay
}

export function explainedSide({ explained, id, circuit, place, way: given }: SideAsked): ExplainedSide {
  const { graph, conditions } = explained
  const way = given ?? waterWay({ graph, conditions, id, circuit })
  const pieces = travelled(explained, way.pieces)
  const restless = pieces.findLastIndex((piece) => piece.alwaysMoves) + 1
  const first = pieces[0]
  return {
    explained,
    id,
    component: graph.components.get(id),
    circuit,
    place,
    source: way.source,
    start: first?.before ?? waterAt(explained, { id: way.source, circuit }),
    pieces,
    moving: pieces.slice(0, restless),
    standing: pieces.slice(restless),
  }
}

export const sum = (figures: readonly number[]): number => figures.reduce((total, one) => total + one, 0)

/** Kelvin the water lost over some pieces, from the mean before the first to the mean behind the last; negative where it warmed. */
export function lostK(pieces: readonly TravelledPiece[]): number {
  const [first, last] = [pieces[0], pieces.at(-1)]
  if (first?.before === undefined || last === undefined) return 0
  return first.before.temperatureC.mean - last.after.temperatureC.mean
}

export const pieceLostK = ({ before, after }: TravelledPiece): number =>
  before === undefined ? 0 : before.temperatureC.mean - after.temperatureC.mean

/** Hours the water spent in a piece, from the mean ages before and behind it. */
export const pieceHours = ({ before, after }: TravelledPiece): number =>
  before === undefined ? 0 : Math.max(0, after.ageHours.mean - before.ageHours.mean)

export const litresADay = ({ day }: TravelledPiece): number => Math.abs(day.flowLPerMin.mean) * MINUTES_A_DAY
const MINUTES_A_DAY = 1440

/** Other water that joins between one piece and the next: what it changes in the mean temperature, K, and age, h. */
export interface Joining {
  readonly at: string
  readonly warmerK: number
  readonly olderHours: number
}

export function joinings({ pieces, id, place }: Pick<ExplainedSide, 'pieces' | 'id' | 'place'>): Joining[] {
  return pieces.map(({ after, to }, at) => {
    const behind = pieces[at + 1]?.before ?? (to === id ? place : after)
    return {
      at: to,
      warmerK: behind.temperatureC.mean - after.temperatureC.mean,
      olderHours: behind.ageHours.mean - after.ageHours.mean,
    }
  })
}

export const fastestMPerS = ({ day: { velocityMPerS } }: TravelledPiece): number =>
  Math.max(Math.abs(velocityMPerS.min), Math.abs(velocityMPerS.max))
