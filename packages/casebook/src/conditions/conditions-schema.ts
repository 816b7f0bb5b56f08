import * as z from 'zod'

const amount = z.number().nonnegative()
const hoursADay = amount.max(24.001)

const spreadOf = (what: string) =>
  z.strictObject({ mean: z.number(), min: z.number(), max: z.number() }).describe(`${what}, over the repeating day`)

const placeShape = {
  ageHours: spreadOf('time since the water came in, h'),
  temperatureC: spreadOf('°C'),
  residualMgPerL: spreadOf('disinfectant residual, mg/L'),
  hoursInGrowthBand: hoursADay.describe('hours of the day at 25 to 45 °C'),
  longestStagnationHours: hoursADay.describe('longest time without flow, h; 24 where nothing moves all day'),
  growthIndex: z.number().min(0).max(1).describe('screening figure: no count and no probability'),
  neverMoves: z.literal(true).optional().describe('no water moves: the age is "at least"'),
}
const placeSchema = z.strictObject(placeShape)

const componentConditionsSchema = z
  .strictObject({
    ...placeShape,
    circuits: z
      .strictObject({ hot: placeSchema.optional(), cold: placeSchema.optional(), tempered: placeSchema.optional() })
      .optional()
      .describe('outlets and mixing valves: the water that arrives on each side'),
    drawnLPerDay: amount.optional().describe('outlets: L drawn a day'),
    minutesBelowUse: amount.optional().describe('outlets: minutes of draw a day that are colder than wanted'),
  })
  .describe('of an outlet the water at its spout, weighted by flow; standing and growth are the worst of its sides')

const pipeConditionsSchema = z.strictObject({
  flowLPerMin: spreadOf('L/min, positive from `from` to `to`'),
  velocityMPerS: spreadOf('m/s'),
  heatLossW: z.number().describe('heat given to the air, W; negative where the pipe warms the water'),
  end: placeSchema.describe('the water at the end to which it flows on balance'),
})

const assumptionSchema = z.strictObject({
  id: z.string(),
  text: z.string(),
  value: z.number().optional(),
  unit: z.string().optional(),
  range: z.strictObject({ lower: z.number(), upper: z.number() }).optional(),
  count: z.int().min(0).describe('for how many components or pipes'),
  parts: z.array(z.string()).describe('the first of them'),
  source: z.string(),
})

/** The result of `rillmark system conditions`: a building's water over a repeating day. */
export const conditionsSchema = z.strictObject({
  components: z.record(z.string(), componentConditionsSchema),
  pipes: z.record(z.string(), pipeConditionsSchema),
  balance: z.strictObject({ massErrorFraction: z.number(), energyErrorFraction: z.number() }),
  daysUntilRepeating: amount,
  repeats: z.boolean().describe('false where the day had not come to repeat itself within the limit of days'),
  assumptions: z.array(assumptionSchema).describe('everything filled in or marked guessed'),
  cannotSay: z.array(z.strictObject({ at: z.string(), why: z.string(), needs: z.string() })),
  cautions: z.array(z.string()),
  residualUnknown: z
    .literal(true)
    .optional()
    .describe('the residual of the supply is not described: residuals say nothing'),
  fitted: z
    .strictObject({
      inputs: z.array(
        z.strictObject({
          id: z.string(),
          words: z.string(),
          unit: z.string(),
          value: z.number(),
          range: z.strictObject({ lower: z.number(), upper: z.number() }),
        }),
      ),
      found: z.array(z.string()).describe('what is not as described and was taken as given'),
    })
    .optional()
    .describe('the values of a fit to readings that were taken in place of those described'),
  seed: z.int().min(0),
})
