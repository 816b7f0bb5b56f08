import * as z from 'zod'
import { OUTPUTS } from './sensitivity-outputs.ts'
import { componentId, entryId, text } from '../entry/fields.ts'

/** The most places one prediction keeps figures of: hot and cold of 2,000 outlets and the plant, with room to spare. */
export const MOST_PREDICTED_PLACES = 6000
/** The most assumptions, gaps and cautions it keeps. */
export const MOST_ASSUMPTIONS = 200

/** The mean over the repeating day, the lowest and the highest. */
const dayFigures = (least: number, most: number) => {
  const figure = z.number().min(least).max(most)
  return z.tuple([figure, figure, figure])
}
export type DayFigures = z.infer<ReturnType<typeof dayFigures>>

/** Which water of a place is meant: what arrives on a circuit, what a return brings back, what a vessel holds, what leaves the spout. */
const PREDICTED_WATERS = ['cold', 'hot', 'tempered', 'hot-return', 'stored', 'spout'] as const

const predictedPlaceSchema = z.strictObject({
  /** a component of the system; it may be taken out later, the prediction stays */
  place: componentId,
  water: z.enum(PREDICTED_WATERS),
  temperatureC: dayFigures(-50, 200),
  ageHours: dayFigures(0, 1e6),
  residualMgPerL: dayFigures(0, 1e4),
  /** hours of the day between 25 and 45 °C */
  bandHours: z.number().min(0).max(24),
  /** longest standing, 24 where nothing moves all day */
  standingHours: z.number().min(0).max(24),
  /** screening figure */
  growthIndex: z.number().min(0).max(1),
  /** when it is warmest, as minutes after midnight */
  warmestMinute: z.int().min(0).max(1439).optional(),
  neverMoves: z.literal(true).optional(),
})
export type PredictedPlace = z.infer<typeof predictedPlaceSchema>

const assumptionSchema = z.strictObject({
  id: text(120),
  text: text(400),
  value: z.number().optional(),
  unit: text(40).optional(),
  range: z.strictObject({ lower: z.number(), upper: z.number() }).optional(),
  /** for how many components or pipes it was filled in */
  count: z.int().min(0),
  source: text(400),
})

/** How far one input at the ends of its range moves one output. */
const effectSchema = z.strictObject({
  input: text(120),
  text: text(400),
  output: z.enum(OUTPUTS),
  baseline: z.number(),
  atLower: z.number().optional(),
  atUpper: z.number().optional(),
})

/** What the simulation said of the building as it was described then, small enough to stay in the record. */
export const predictionSchema = z.strictObject({
  /** the entry that last shaped the described system */
  system: entryId,
  /** the entry of the fit whose values it takes, where one was taken over */
  fit: entryId.optional(),
  /** of the random draws */
  seed: z.int().min(0),
  assumptions: z.array(assumptionSchema).max(MOST_ASSUMPTIONS),
  cannotSay: z.array(z.strictObject({ at: text(200), why: text(400) })).max(MOST_ASSUMPTIONS),
  cautions: z.array(text(400)).max(MOST_ASSUMPTIONS),
  balance: z.strictObject({ massErrorFraction: z.number(), energyErrorFraction: z.number() }),
  daysUntilRepeating: z.number().min(0),
  repeats: z.boolean(),
  places: z.array(predictedPlaceSchema).min(1).max(MOST_PREDICTED_PLACES),
  /** places of a very large building whose figures were not kept, least favourable to growth first */
  placesLeftOut: z.int().min(0).default(0),
  /** true where nothing was said of the supply's residual, so that residuals of 0 mean nothing */
  residualUnknown: z.literal(true).optional(),
  /** what the inputs that were filled in or guessed do to it, where that was worked out */
  effects: z.array(effectSchema).max(MOST_ASSUMPTIONS).default([]),
  note: text(2000).optional(),
})
export type Prediction = z.infer<typeof predictionSchema>
