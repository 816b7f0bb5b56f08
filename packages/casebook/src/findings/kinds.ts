import * as z from 'zod'
import { componentId, optionalText, text } from '../entry/fields.ts'

export const FINDINGS_KINDS = {
  'criteria.chosen': {
    step: 'findings',
    title: 'Criteria set chosen',
    body: z.strictObject({
      criteria: text(60),
      version: text(40),
      /** a user's own set, whole, so that the record alone can be read again later */
      own: z.unknown().optional(),
      reason: optionalText,
    }),
  },
  'finding.concluded': {
    step: 'findings',
    title: 'Conclusion written',
    body: z.strictObject({
      statement: text(2000),
      strength: z.enum(['weak', 'moderate', 'strong']),
      evidence: z
        .array(z.strictObject({ ref: text(120), words: text(300), speaks: z.enum(['for', 'against']) }))
        .max(100)
        .default([]),
      wouldChangeIt: optionalText,
      components: z.array(componentId).max(5000).default([]),
    }),
  },
} as const
