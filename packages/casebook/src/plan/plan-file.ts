import * as z from 'zod'
import { circuit, componentId, sampleKind, text } from '../entry/fields.ts'

/** Why a point is in the plan, or why it was asked for. */
const OBLIGATIONS = [
  'entry',
  'heater',
  'return',
  'nearest outlet',
  'farthest outlet',
  'case exposure',
  'low use',
  'dead leg',
  'device',
  'recent works',
  'predicted',
  'control',
  'quality',
  'asked for',
  'spread',
] as const

const reasonSchema = z.strictObject({
  obligation: z.enum(OBLIGATIONS),
  text: text(400),
  /** ids of the entries or components the reason rests on */
  evidence: z.array(z.string()).default([]),
})
export type Reason = z.infer<typeof reasonSchema>

const plannedSampleSchema = z.strictObject({
  sampleKind,
  procedure: z.string(),
  circuit: circuit.optional(),
  volumeMl: z.number().positive().optional(),
  /** label printed for this sample; given when the plan is adopted; readings have none */
  label: z.string().optional(),
  /** for a duplicate: the label or sample kind it repeats */
  repeats: z.string().optional(),
})
export type PlannedSample = z.infer<typeof plannedSampleSchema>

export const stopSchema = z.strictObject({
  id: z.string().min(1).max(60),
  /** the place in the water system; field blanks carry none */
  component: componentId.optional(),
  title: text(160),
  floor: z.number().optional(),
  riser: z.string().optional(),
  zone: z.string().optional(),
  room: z.string().optional(),
  samples: z.array(plannedSampleSchema),
  reasons: z.array(reasonSchema).min(1),
  /** 1 = dropped last, larger = dropped earlier when the budget is short */
  rank: z.int().min(1),
  minutes: z.number().nonnegative(),
  /** which team walks it, counted from 1 */
  team: z.int().min(1).optional(),
})
export type Stop = z.infer<typeof stopSchema>

const leftOutSchema = z.strictObject({ stop: stopSchema, cost: text(400) })

export const budgetSchema = z.strictObject({
  samples: z.int().min(0),
  hours: z.number().positive().optional(),
  teams: z.int().min(1).optional(),
  perPointMinutes: z.number().positive().optional(),
})
export type Budget = z.infer<typeof budgetSchema>

/** What a plan can and can't detect, for one way the building might be colonised. */
const scenarioSchema = z.strictObject({
  id: z.string(),
  words: text(300),
  detectionProbability: z.number().min(0).max(1),
})

/** What one more point, the next in order, would bring. */
const additionSchema = z.strictObject({
  component: componentId,
  title: text(160),
  /** how many samples the point takes */
  samples: z.int(),
  /** by scenario id: detection probability gained over the point before it */
  gains: z.record(z.string(), z.number()),
})
export type Addition = z.infer<typeof additionSchema>

export const planSchema = z.strictObject({
  format: z.literal('rillmark/plan@1'),
  system: text(120),
  budget: budgetSchema,
  stops: z.array(stopSchema),
  leftOut: z.array(leftOutSchema),
  scenarios: z.array(scenarioSchema),
  /** in words: what n outlets without a positive could still hide */
  couldHide: z.array(text(400)),
  totals: z.strictObject({
    samples: z.int(),
    outlets: z.int(),
    minutes: z.number(),
    hoursPerTeam: z.number(),
  }),
  /** the next points in order, each with what it would bring */
  added: z.array(additionSchema).optional(),
  /** the scenarios weighed by how likely someone holds each, where weights were given */
  weighed: z.number().min(0).max(1).optional(),
  /** how the points were chosen; no gap to the best possible plan is claimed unless it was proven */
  method: z.string().optional(),
  /** what was not found, left open or limited, in words */
  notes: z.array(text(400)).optional(),
})
export type Plan = z.infer<typeof planSchema>
