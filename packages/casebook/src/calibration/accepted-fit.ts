import * as z from 'zod'
import { componentId, entryId, text } from '../entry/fields.ts'
import { roundCode } from '../plan/kinds.ts'
import { REASON_KINDS } from './reason-kinds.ts'

/** A set point, a flow and the like for each of a large building's plant. */
const MOST_INPUTS = 500
const MOST_FOUND = 20

const ranged = z.strictObject({
  value: z.number(),
  range: z.strictObject({ lower: z.number(), upper: z.number() }),
})

const acceptedInputSchema = z.strictObject({
  /** of the input in the fit: `setpointC:heater-1` */
  id: text(200),
  words: text(400),
  unit: text(40),
  parts: z.array(componentId).max(5000),
  /** before any reading */
  believed: ranged,
  /** with the readings; predictions take the value */
  fitted: ranged,
})

/** Something not as described that the fit takes as given. */
const acceptedReasonSchema = z.strictObject({
  /** of the reason in the fit: `stopped:r1` */
  id: text(200),
  kind: z.enum(REASON_KINDS),
  words: text(400),
  parts: z.array(componentId).max(5000),
  size: ranged.extend({ words: text(200), unit: text(40) }).optional(),
})

/** A fit to the readings of a round, taken over by the investigator: predictions of the building as described then take its values. */
export const acceptedFitSchema = z.strictObject({
  /** the entry that last shaped the described system */
  system: entryId,
  /** whose readings it was fitted to */
  round: roundCode,
  /** of the random draws */
  seed: z.int().min(0),
  /** chance that a range holds the value */
  level: z.number().gt(0).lt(1),
  /** how many readings it rests on, and how many of them it does not explain */
  readings: z.int().min(1),
  unexplained: z.int().min(0),
  inputs: z.array(acceptedInputSchema).min(1).max(MOST_INPUTS),
  found: z.array(acceptedReasonSchema).max(MOST_FOUND).default([]),
  note: text(2000).optional(),
})
export type AcceptedFit = z.infer<typeof acceptedFitSchema>
