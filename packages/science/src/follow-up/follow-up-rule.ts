import * as z from 'zod'
import { field } from '../catalogue/fields.ts'

const days = () => z.int().min(1).max(3660)
const months = () => z.int().min(1).max(120)

/** Of the Gregorian calendar, on average. */
const DAYS_PER_MONTH = 146_097 / 4800

interface Lengths {
  everyDays?: number | undefined
  everyMonths?: number | undefined
  forDays?: number | undefined
  forMonths?: number | undefined
}

/**
 * About how many days lie between two rounds of a phase, months taken at their average length; for bounds, not for dates.
 *
 * @param phase of a rule, checked or not
 * @source none: the length of a month in the calendar
 * @example
 * intervalDays({ everyDays: 14 }) // => 14
 */
export function intervalDays({ everyDays, everyMonths }: Lengths): number {
  return everyDays ?? (everyMonths ?? 0) * DAYS_PER_MONTH
}

/**
 * About how many days a phase lasts, months taken at their average length; for bounds, not for dates.
 *
 * @param phase of a rule, checked or not
 * @source none: the length of a month in the calendar
 * @example
 * phaseDays({ forMonths: 12 }) // => 365.2425
 */
export function phaseDays({ forDays, forMonths }: Lengths): number {
  return forDays ?? (forMonths ?? 0) * DAYS_PER_MONTH
}

const phaseSchema = z
  .strictObject({
    everyDays: field(days().optional(), { what: 'days between rounds; this or everyMonths' }),
    everyMonths: field(months().optional(), { what: 'months between rounds' }),
    forDays: field(days().optional(), { what: 'how many days the phase lasts; this or forMonths' }),
    forMonths: field(months().optional(), { what: 'how many months the phase lasts' }),
  })
  .refine((phase) => (phase.everyDays === undefined) !== (phase.everyMonths === undefined), {
    path: ['everyDays'],
    message: 'either everyDays or everyMonths',
  })
  .refine((phase) => (phase.forDays === undefined) !== (phase.forMonths === undefined), {
    path: ['forDays'],
    message: 'either forDays or forMonths',
  })
  .refine((phase) => !(intervalDays(phase) > phaseDays(phase)), {
    message: 'a phase long enough for one round: its interval is not longer than it lasts',
  })

const slack = (what: string) => field(z.int().min(0).max(60), { what })

/**
 * When samples are taken after remediation, as data: an optional first sample between a least and a greatest number of days, then
 * phases of equally spaced rounds. The rule is met when every round was negative; a positive starts it again.
 */
export const followUpRuleSchema = z
  .strictObject({
    firstSample: field(
      z
        .strictObject({
          minDays: field(days(), { what: 'least days after the remediation' }),
          maxDays: field(days(), { what: 'most days after it' }),
        })
        .refine(({ minDays, maxDays }) => minDays <= maxDays, { path: ['maxDays'], message: 'at least minDays' })
        .optional(),
      { what: 'a first sample before the phases' },
    ),
    phases: field(z.array(phaseSchema).max(12).default([]), {
      what: 'phases of equally spaced rounds, one after the other',
    }),
    window: field(
      z
        .strictObject({
          beforeDays: slack('days before its date a round counts as on time'),
          afterDays: slack('days after its date a round counts as on time'),
        })
        .default({ beforeDays: 0, afterDays: 0 }),
      { what: 'how far from its date a round still counts as on time' },
    ),
    minGapDays: field(z.int().min(0).max(366).default(1), {
      what: 'least days between two samplings that count as two rounds',
    }),
    restartOnPositive: field(z.boolean().default(true), { what: 'whether a positive starts the series again' }),
  })
  .refine((rule) => rule.firstSample !== undefined || rule.phases.length > 0, {
    path: ['phases'],
    message: 'a first sample or at least one phase',
  })

export type FollowUpRule = z.infer<typeof followUpRuleSchema>
export type FollowUpPhase = z.infer<typeof phaseSchema>
