import * as z from 'zod'
import { sha256Hex, text } from '../entry/fields.ts'

export const REPORT_SECTIONS = ['summary', 'limits', 'recommendations'] as const

export const REPORT_KINDS = {
  'report.written': {
    step: 'report',
    title: 'Report text written',
    body: z.strictObject({ section: z.enum(REPORT_SECTIONS), text: text(20_000) }),
  },
  'report.issued': {
    step: 'report',
    title: 'Report issued',
    body: z.strictObject({
      variant: z.enum(['full', 'redacted']),
      headSequence: z.int().min(0),
      headHash: sha256Hex,
      sha256: sha256Hex,
      issuedTo: text(300),
    }),
  },
} as const
