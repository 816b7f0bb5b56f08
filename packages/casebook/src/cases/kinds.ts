import * as z from 'zod'
import { code, componentId, isoDate, optionalText, text } from '../entry/fields.ts'

export const CLASSIFICATIONS = ['confirmed', 'probable', 'suspected', 'not a case'] as const
export const LINKS = ['presumptive', 'possible', 'none', 'not judged'] as const
export const EXPOSURE_KINDS = [
  'stay',
  'shower',
  'bath',
  'tap',
  'spa',
  'fountain',
  'ice',
  'device',
  'work',
  'visit',
  'other',
] as const

export const CASES_KINDS = {
  'case.recorded': {
    step: 'cases',
    title: 'Case recorded',
    body: z.strictObject({
      code,
      onsetDate: isoDate.optional(),
      classification: z.enum(CLASSIFICATIONS),
      link: z.enum(LINKS).default('not judged'),
      isolate: z.enum(['kept', 'asked for', 'none taken', 'not known']).default('not known'),
      notes: optionalText,
    }),
  },
  'exposure.recorded': {
    step: 'cases',
    title: 'Exposure recorded',
    body: z.strictObject({
      caseCode: code,
      place: text(120),
      component: componentId.optional(),
      kind: z.enum(EXPOSURE_KINDS),
      from: isoDate,
      to: isoDate,
      notes: optionalText,
    }),
  },
  'incubation.chosen': {
    step: 'cases',
    title: 'Incubation window chosen',
    body: z.strictObject({ definition: text(60), reason: optionalText }),
  },
} as const
