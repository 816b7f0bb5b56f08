import * as z from 'zod'
import { isoDate, text } from '../entry/fields.ts'

export const FOLLOW_UP_KINDS = {
  'follow-up.started': {
    step: 'follow-up',
    title: 'Follow-up started',
    body: z.strictObject({
      remediationCompletedOn: isoDate,
      criteria: text(60),
      version: text(40),
      reason: text(1000).optional(),
    }),
  },
  'follow-up.closed': {
    step: 'follow-up',
    title: 'Investigation closed',
    body: z.strictObject({
      closedOn: isoDate,
      ruleMet: z.boolean(),
      /** needed when the rule is not met */
      overrideReason: text(2000).optional(),
    }),
  },
  'follow-up.reopened': {
    step: 'follow-up',
    title: 'Investigation reopened',
    body: z.strictObject({ reason: text(2000) }),
  },
} as const
