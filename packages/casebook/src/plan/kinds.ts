import * as z from 'zod'
import { isoDate, text } from '../entry/fields.ts'
import { procedureSchema } from '../procedures/procedure.ts'
import { planSchema } from './plan-file.ts'

/** A round's short name: R1 is the initial one, R2 and on follow. */
export const roundCode = z.string().regex(/^R[1-9]\d?$/, 'a round such as R1')

export const PLAN_KINDS = {
  /** a user's own procedure, whole, so that the record alone can be read again later */
  'procedure.added': {
    step: 'plan',
    title: 'Procedure added',
    body: z.strictObject({ procedure: procedureSchema, reason: text(400).optional() }),
  },
  'plan.adopted': {
    step: 'plan',
    title: 'Plan adopted',
    body: z.strictObject({
      round: roundCode,
      purpose: z.enum(['initial', 'follow-up', 'extra']),
      scheduledOn: isoDate.optional(),
      teams: z.array(text(80)).max(20).default([]),
      plan: planSchema,
    }),
  },
} as const
