import * as z from 'zod'

export const RECORD_KINDS = {
  /** takes an entry out of what is derived; both stay in the record; `corrects` names the entry and the reason */
  'entry.withdrawn': { step: 'record', title: 'Entry withdrawn', body: z.strictObject({}) },
} as const
