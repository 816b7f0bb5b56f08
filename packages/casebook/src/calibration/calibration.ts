import type { ConditionsOverrides } from '../conditions/overrides.ts'
import type { FieldReading } from './field-reading.ts'
import type { ReasonKind } from './reason-kinds.ts'

/** A value with the range that holds it with the chance of `Calibration.level`. */
export interface Ranged {
  value: number
  range: { lower: number; upper: number }
}

export interface InputFit {
  id: string
  words: string
  unit: string
  parts: readonly string[]
  before: Ranged
  after: Ranged
  /** Width after over width before: 1 where the readings say nothing of it. */
  sdRatio: number
  /** It had to go further than is believed likely. */
  strained: boolean
}

export interface ReadingFit {
  reading: FieldReading
  /** As described. */
  before: number
  after: number
  /** What reading and model may differ by when nothing is wrong. */
  sd: number
  /** How far the prediction may lie from `after` by what is left open of the inputs; no part of `sd`. */
  inputSd: number
  /** Measured less predicted after the fit, in standard deviations. */
  standardised: number
  unexplained: boolean
}

/** Something that isn't as described, and how well that explains the readings. */
export interface Finding {
  id: string
  kind: ReasonKind
  words: string
  parts: readonly string[]
  size?: (Ranged & { words: string; unit: string }) | undefined
  /** Twice the log-likelihood gained, after its penalty. */
  score: number
  /** Ids of readings that were not explained and now are. */
  explains: readonly string[]
  /** Other reasons that explain the readings about as well. */
  orElse: readonly Tried[]
}

export interface Tried {
  id: string
  kind: ReasonKind
  words: string
  score: number
}

export type NotFitted = { kind: 'not fitted'; why: string; leftOut: readonly LeftOut[] }

export interface LeftOut {
  id: string
  why: string
}

export interface Calibration {
  kind: 'fitted'
  level: number
  readings: readonly ReadingFit[]
  leftOut: readonly LeftOut[]
  inputs: readonly InputFit[]
  /** What isn't as described, with the likeliest reason first found. */
  findings: readonly Finding[]
  /** Ids of readings that nothing tried explains. */
  unexplained: readonly string[]
  /** Reasons tried last without one that convinces; empty where none was needed. */
  tried: readonly Tried[]
  /** To simulate the building as fitted. */
  overrides: ConditionsOverrides
  runs: number
  settled: boolean
}
