import type { Circuit } from '../building/water-system.ts'

/** What a sentence is about. */
export const ABOUT = ['flow', 'way', 'age', 'temperature', 'residual', 'growth'] as const

export interface Sentence {
  readonly about: (typeof ABOUT)[number]
  readonly text: string
}

/** What makes water cool, warm, old or unprotected. Only what the simulation shows at this place is named. */
export type CauseId =
  | 'nothing-moves'
  | 'stands'
  | 'low-set-point'
  | 'heater-not-hot'
  | 'large-heater'
  | 'large-tank'
  | 'tempered'
  | 'loop-stopped'
  | 'uninsulated'
  | 'weak-loop'
  | 'long-run-out'
  | 'oversized'
  | 'little-drawn'
  | 'warm-supply'
  | 'warm-air'
  | 'warm-tank'
  | 'warm-water-joins'
  | 'no-residual-supplied'

export interface Cause {
  readonly id: CauseId
  readonly text: string
  /** Components and pipes it lies in. */
  readonly parts: readonly string[]
}

/** One water of a place: what it is like and why. */
export interface SideExplanation {
  readonly water: Circuit | 'stored'
  readonly sentences: readonly Sentence[]
  readonly causes: readonly Cause[]
  /** The pipes the water came through, from its source on. */
  readonly way: readonly string[]
}

export interface Explanation {
  readonly id: string
  readonly name: string
  readonly sides: readonly SideExplanation[]
}
