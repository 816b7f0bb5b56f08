import type { Calibration, NotFitted } from '@rillmark/casebook/calibration/calibration.ts'
import type { FieldReading } from '@rillmark/casebook/calibration/field-reading.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type {
  CannotSay,
  Conditions,
  ConditionsAnswer,
  ConditionsSeries,
} from '@rillmark/casebook/conditions/conditions.ts'
import type { ConditionsOverrides } from '@rillmark/casebook/conditions/overrides.ts'
import type { Sensitivity } from '@rillmark/casebook/conditions/sensitivity.ts'
import type { WhatIfChange } from '@rillmark/casebook/conditions/what-if.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'

interface About {
  readonly system: WaterSystem
}

/** The fit whose values are taken in place of those described. */
export interface AsFitted {
  readonly entry: string
  readonly overrides: ConditionsOverrides
}

interface AboutDescription extends About {
  /** Nothing where none was taken over. */
  readonly fitted?: AsFitted | undefined
  /** The entry that last shaped the system, to tell later whether it changed. */
  readonly systemEntry: string
}

/** The day of a building as it is described. */
export interface PredictJob extends AboutDescription {
  readonly kind: 'predict'
  readonly seed: number
}

/** The day of a building after some changes. */
export interface WhatIfJob extends AboutDescription {
  readonly kind: 'what-if'
  readonly seed: number
  readonly changes: readonly WhatIfChange[]
}

/** What each assumption of a prediction does to it. */
export interface SensitivityJob extends About {
  readonly kind: 'sensitivity'
  readonly fitted: AsFitted | undefined
  readonly conditions: Conditions
}

/** The uncertain inputs of a building, fitted to what was read. */
export interface FitJob extends About {
  readonly kind: 'fit'
  readonly seed: number
  readonly readings: readonly FieldReading[]
}

export type Job = PredictJob | WhatIfJob | SensitivityJob | FitJob

export type WhatIfRun =
  | { readonly kind: 'issues'; readonly issues: readonly Issue[] }
  | { readonly kind: 'cannot-say'; readonly reasons: readonly CannotSay[] }
  | {
      readonly kind: 'changed'
      readonly system: WaterSystem
      readonly conditions: Conditions
      readonly series: ConditionsSeries | undefined
    }

/** What each kind of job comes to. */
export interface Answers {
  readonly predict: ConditionsAnswer
  readonly 'what-if': WhatIfRun
  readonly sensitivity: Sensitivity
  readonly fit: Calibration | NotFitted
}

export type JobMessage =
  | { readonly fraction: number }
  | { readonly answer: Answers[Job['kind']] }
  | { readonly failed: string }
