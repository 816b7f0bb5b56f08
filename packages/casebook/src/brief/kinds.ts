import * as z from 'zod'
import { entryId, isoDate, optionalText, text } from '../entry/fields.ts'
import { STEPS } from '../entry/steps.ts'

export const SETTINGS = [
  'hospital',
  'long-term care',
  'hotel',
  'apartments',
  'workplace',
  'ship',
  'leisure',
  'other',
] as const

export const BRIEF_KINDS = {
  'investigation.opened': {
    step: 'brief',
    title: 'Investigation opened',
    body: z.strictObject({
      title: text(120),
      locality: optionalText,
      setting: z.enum(SETTINGS),
      openedOn: isoDate,
      reason: text(2000),
    }),
  },
  'note.written': {
    step: 'brief',
    title: 'Note written',
    body: z.strictObject({
      text: text(4000),
      about: z.enum(STEPS).optional(),
      purpose: z.enum(['note', 'open question']).default('note'),
    }),
  },
  'calculation.recorded': {
    step: 'brief',
    title: 'Calculation recorded',
    body: z.strictObject({
      /** id of the calculation, as in the catalogue */
      id: text(60),
      /** of the calculation, on the day it was worked */
      version: z.int().min(1).optional(),
      input: z.record(z.string(), z.unknown()),
      result: z.record(z.string(), z.unknown()),
      /** formula, figures put in, result, sources and cautions in words, as they stood then */
      working: text(20_000),
      about: z.enum(STEPS).optional(),
    }),
  },
  'question.settled': {
    step: 'brief',
    title: 'Question settled',
    body: z.strictObject({ question: entryId, answer: text(2000) }),
  },
} as const
