import * as z from 'zod'

const days = z.int().min(1).max(3660)
const months = z.int().min(1).max(120)

const phaseSchema = z
  .strictObject({
    everyDays: days.optional(),
    everyMonths: months.optional(),
    forDays: days.optional(),
    forMonths: months.optional(),
  })
  .refine((phase) => (phase.everyDays === undefined) !== (phase.everyMonths === undefined), {
    path: ['everyDays'],
    message: 'either everyDays or everyMonths',
  })
  .refine((phase) => (phase.forDays === undefined) !== (phase.forMonths === undefined), {
    path: ['forDays'],
    message: 'either forDays or forMonths',
  })

/**
 * When samples are taken after remediation, as data: an optional first sample between a least and a greatest number of days, then
 * phases of equally spaced rounds. The rule is met when every round was negative; a positive starts it again.
 */
export const followUpRuleSchema = z
  .strictObject({
    firstSample: z
      .strictObject({ minDays: days, maxDays: days })
      .refine(({ minDays, maxDays }) => minDays <= maxDays, { path: ['maxDays'], message: 'at least minDays' })
      .optional(),
    phases: z.array(phaseSchema).max(12).default([]),
    /** how many days before and after its date a round still counts as on time */
    window: z
      .strictObject({ beforeDays: z.int().min(0).max(60), afterDays: z.int().min(0).max(60) })
      .default({ beforeDays: 0, afterDays: 0 }),
    /** least number of days between two samplings that count as two rounds */
    minGapDays: z.int().min(0).max(366).default(1),
    restartOnPositive: z.boolean().default(true),
  })
  .refine((rule) => rule.firstSample !== undefined || rule.phases.length > 0, {
    path: ['phases'],
    message: 'a first sample or at least one phase',
  })

export type FollowUpRule = z.infer<typeof followUpRuleSchema>
export type FollowUpPhase = z.infer<typeof phaseSchema>
