import * as z from 'zod'
import { waterSystemSchema } from '../building/water-system.ts'
import type { Conditions } from '../conditions/conditions.ts'
import type { PredictedPlace } from '../conditions/prediction.ts'
import { type PlacesPredicted, predictedPlaces } from '../conditions/prediction-of.ts'
import { EXPOSURE_KINDS } from '../cases/kinds.ts'
import { code, componentId, isoDate, text } from '../entry/fields.ts'
import type { Procedure } from '../procedures/procedure.ts'
import { budgetSchema } from './plan-file.ts'

/** A place in the building a case used. */
const usedPlaceSchema = z.strictObject({
  caseCode: code,
  place: text(120),
  component: componentId.optional(),
  kind: z.enum(EXPOSURE_KINDS).default('other'),
  /** id of the entry that says so */
  entry: z.string().optional(),
})
export type UsedPlace = z.infer<typeof usedPlaceSchema>

const sweptDeviceSchema = z.strictObject({
  device: text(60),
  state: z.enum(['present', 'absent', 'not looked at']),
  place: z.string().optional(),
  component: componentId.optional(),
  entry: z.string().optional(),
})

const worksSchema = z.strictObject({
  on: isoDate,
  what: text(60),
  components: z.array(componentId).default([]),
  text: z.string().max(2000).default(''),
  entry: z.string().optional(),
})

/** A point someone wants in the plan whatever the planner thinks, with the reason. */
export const askedPointSchema = z.strictObject({
  component: componentId,
  text: text(300),
  entry: z.string().optional(),
  /** Legionella was found there before: of the points asked for it is dropped last */
  found: z.literal(true).optional(),
})
export type AskedPoint = z.infer<typeof askedPointSchema>

const caseSchema = z.looseObject({
  code,
  exposures: z
    .array(
      z.looseObject({ place: text(120), component: componentId.optional(), kind: z.enum(EXPOSURE_KINDS).optional() }),
    )
    .default([]),
})

/** A spread of the answer of `rillmark system conditions`. */
const spreadSchema = z.looseObject({ mean: z.number(), min: z.number(), max: z.number() })

const placeConditionsSchema = z.looseObject({
  temperatureC: spreadSchema,
  ageHours: spreadSchema,
  residualMgPerL: spreadSchema,
  hoursInGrowthBand: z.number().min(0).max(24),
  longestStagnationHours: z.number().min(0).max(24),
  growthIndex: z.number().min(0).max(1),
  neverMoves: z.literal(true).optional(),
})

/** What `rillmark system conditions` says of the same system; the rest of its answer is let through unread. */
const predictionsSchema = z.looseObject({
  residualUnknown: z.literal(true).optional(),
  components: z.record(
    componentId,
    placeConditionsSchema.extend({
      circuits: z
        .strictObject({ hot: placeConditionsSchema, cold: placeConditionsSchema, tempered: placeConditionsSchema })
        .partial()
        .optional(),
    }),
  ),
})

const weight = z.number().min(0)

/** What `rillmark plan` reads: a water system, and what else is known. */
export const planRequestSchema = z.strictObject({
  system: waterSystemSchema,
  cases: z.array(caseSchema).optional(),
  sweep: z.array(sweptDeviceSchema).optional(),
  history: z.array(worksSchema).optional(),
  budget: budgetSchema,
  obligations: z.array(z.union([askedPointSchema, componentId])).optional(),
  exclude: z.array(askedPointSchema).optional(),
  /** how likely each way of colonisation is held to be; weighs the scenarios */
  prior: z
    .strictObject({ 'local-outlets': weight, 'one-riser': weight, 'hot-system': weight, 'cold-supply': weight })
    .partial()
    .optional(),
  /** chance that a sample of a colonised point is found positive, 0 to 1 */
  sensitivity: z.number().gt(0).max(1).optional(),
  /** the answer of `rillmark system conditions --json` for this system: its lists become reasons */
  predictions: predictionsSchema.optional(),
})
export type PlanRequest = z.infer<typeof planRequestSchema>

/** What the simulation says of the building, by place and water. */
export interface PlanPredictions {
  readonly places: readonly PredictedPlace[]
  /** true where nothing was said of the supply's residual */
  readonly residualUnknown?: true | undefined
  /** id of the entry that holds it */
  readonly entry?: string
  /** true where the building changed since */
  readonly stale?: boolean
}

/** What the planner works from. */
export interface PlanInput extends Omit<PlanRequest, 'cases' | 'obligations' | 'predictions'> {
  readonly used?: readonly UsedPlace[]
  readonly asked?: readonly AskedPoint[]
  readonly predictions?: PlanPredictions
  /** the procedures in force; a jurisdiction's own come first */
  readonly procedures: readonly Procedure[]
}

/** A simulation as the planner reads it. */
export const planPredictions = (
  predicted: Omit<PlacesPredicted, 'conditions'> & {
    readonly conditions: PlacesPredicted['conditions'] & Pick<Conditions, 'residualUnknown'>
  },
): PlanPredictions => ({
  places: predictedPlaces(predicted),
  residualUnknown: predicted.conditions.residualUnknown,
})

/** The planner's input from a request file. */
export function planInputOf(request: PlanRequest, procedures: readonly Procedure[]): PlanInput {
  const { cases = [], obligations = [], predictions, ...rest } = request
  const { system } = request
  return {
    ...rest,
    ...(predictions === undefined
      ? {}
      : { predictions: planPredictions({ system, conditions: { ...predictions, pipes: {} } }) }),
    procedures,
    used: cases.flatMap(({ code: caseCode, exposures }) =>
      exposures.map(({ place, component, kind = 'other' }) => ({
        caseCode,
        place,
        kind,
        ...(component === undefined ? {} : { component }),
      })),
    ),
    asked: obligations.map((one) => (typeof one === 'string' ? { component: one, text: 'asked for' } : one)),
  }
}
