import type { DaySeries, Spread } from '@rillmark/science/network/day-result.ts'

/** What `rillmark system conditions` answers: the water of every component and pipe over a repeating day. */
export interface Conditions {
  components: Record<string, ComponentConditions>
  pipes: Record<string, PipeConditions>
  balance: { massErrorFraction: number; energyErrorFraction: number }
  daysUntilRepeating: number
  repeats: boolean
  /** Everything filled in that the description did not say. */
  assumptions: readonly Assumption[]
  /** Parts of which nothing can be said, and why. */
  cannotSay: readonly CannotSay[]
  cautions: readonly string[]
  /** True where the supply's residual is not described: residuals are then computed as none, and say nothing. */
  residualUnknown?: true | undefined
  seed: number
}

export interface PlaceConditions {
  ageHours: Spread
  temperatureC: Spread
  residualMgPerL: Spread
  hoursInGrowthBand: number
  longestStagnationHours: number
  growthIndex: number
  /** True where no water moves: the age is "at least". */
  neverMoves?: true | undefined
}

export interface ComponentConditions extends PlaceConditions {
  /** Outlets and mixing valves: the water arriving on each side. */
  circuits?: { [C in 'hot' | 'cold' | 'tempered']?: PlaceConditions | undefined } | undefined
  /** Outlets: litres drawn a day, and minutes a day of draw colder than wanted. */
  drawnLPerDay?: number
  minutesBelowUse?: number
}

export interface PipeConditions {
  flowLPerMin: Spread
  velocityMPerS: Spread
  heatLossW: number
  end: PlaceConditions
}

/** A figure that was filled in, and where. */
export interface Assumption {
  /** Stable name, such as `ambientC`, `insulation`, `use:shower`. */
  id: string
  /** In plain words, with the value and its unit. */
  text: string
  value?: number | undefined
  unit?: string | undefined
  range?: { lower: number; upper: number } | undefined
  /** How many components or pipes it was filled in for, and the first few. */
  count: number
  parts: readonly string[]
  /** Where the value comes from. */
  source: string
}

export interface CannotSay {
  /** Path in the water-system file, or a part's id. */
  at: string
  why: string
  /** What would have to be described. */
  needs: string
}

/** Curves of the day by part: rows by the position of the id in `pipeIds` and `componentIds`. */
export interface ConditionsSeries {
  slots: number
  pipeIds: readonly string[]
  /** Of an outlet the row is that of its hot side, else tempered, else cold; the other sides are the ends of their pipes. */
  componentIds: readonly string[]
  pipes: DaySeries['pipes']
  components: DaySeries['nodes']
}

/** Either the conditions, or only the reasons why nothing can be said. */
export type ConditionsAnswer =
  | { kind: 'conditions'; conditions: Conditions; series?: ConditionsSeries | undefined }
  | { kind: 'cannot-say'; reasons: readonly CannotSay[] }
