import * as z from 'zod'
import { sha256Hex, text } from '../entry/fields.ts'
import { UNIT_CHOICES } from '../units/display-units.ts'

export const REPORT_SECTIONS = ['summary', 'limits', 'recommendations'] as const

const unitsField = z.strictObject({
  temperature: z.enum(UNIT_CHOICES.temperature),
  volume: z.enum(UNIT_CHOICES.volume),
  bore: z.enum(UNIT_CHOICES.bore),
  length: z.enum(UNIT_CHOICES.length),
  mass: z.enum(UNIT_CHOICES.mass),
  count: z.enum(UNIT_CHOICES.count),
})

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
      /** units of the reader, where they are not those of the record: the same bytes can be made again */
      units: unitsField.optional(),
      issuedTo: text(300),
    }),
  },
} as const
