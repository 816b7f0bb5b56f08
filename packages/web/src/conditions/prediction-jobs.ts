import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { ConditionsAnswer } from '@rillmark/casebook/conditions/conditions.ts'

/** What is asked of the worker: the day of a building. */
export interface PredictJob {
  readonly kind: 'predict'
  readonly system: WaterSystem
  readonly seed: number
  /** The entry that last shaped the system, to tell later whether it changed. */
  readonly systemEntry: string
}

export type Job = PredictJob

/** What each kind of job comes to. */
export interface Answers {
  readonly predict: ConditionsAnswer
}

export type JobMessage<K extends Job['kind'] = Job['kind']> =
  | { readonly fraction: number }
  | { readonly answer: Answers[K] }
  | { readonly failed: string }
