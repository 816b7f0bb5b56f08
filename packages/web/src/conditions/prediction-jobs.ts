import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type {
  CannotSay,
  Conditions,
  ConditionsAnswer,
  ConditionsSeries,
} from '@rillmark/casebook/conditions/conditions.ts'
import type { Sensitivity } from '@rillmark/casebook/conditions/sensitivity.ts'
import type { WhatIfChange } from '@rillmark/casebook/conditions/what-if.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'

interface About {
  readonly system: WaterSystem
  /** The entry that last shaped the system, to tell later whether it changed. */
  readonly systemEntry: string
}

/** The day of a building as it is described. */
export interface PredictJob extends About {
  readonly kind: 'predict'
  readonly seed: number
}

/** The day of a building after some changes. */
export interface WhatIfJob extends About {
  readonly kind: 'what-if'
  readonly seed: number
  readonly changes: readonly WhatIfChange[]
}

/** What each assumption of a prediction does to it. */
export interface SensitivityJob extends About {
  readonly kind: 'sensitivity'
  readonly conditions: Conditions
}

export type Job = PredictJob | WhatIfJob | SensitivityJob

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
}

export type JobMessage =
  | { readonly fraction: number }
  | { readonly answer: Answers[Job['kind']] }
  | { readonly failed: string }
