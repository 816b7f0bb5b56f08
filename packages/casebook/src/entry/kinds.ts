import type * as z from 'zod'
import { BRIEF_KINDS } from '../brief/kinds.ts'
import { BUILDING_KINDS } from '../building/kinds.ts'
import { CASES_KINDS } from '../cases/kinds.ts'
import { CONTESTS_KINDS } from '../contests/kinds.ts'
import { CONTROL_KINDS } from '../control/kinds.ts'
import { CUSTODY_KINDS } from '../custody/kinds.ts'
import { DEVICES_KINDS } from '../devices/kinds.ts'
import { FIELDWORK_KINDS } from '../fieldwork/kinds.ts'
import { FINDINGS_KINDS } from '../findings/kinds.ts'
import { FOLLOW_UP_KINDS } from '../follow-up/kinds.ts'
import { PLAN_KINDS } from '../plan/kinds.ts'
import { RECORD_KINDS } from '../record/kinds.ts'
import { REPORT_KINDS } from '../report/kinds.ts'
import { RESULTS_KINDS } from '../results/kinds.ts'
import type { Step } from './steps.ts'

/** What a kind of entry is: the step it belongs to, its words, and the schema of its body. */
export interface KindDescription {
  readonly step: Step
  readonly title: string
  readonly body: z.ZodType
}

/** Every kind of entry there is. Each step adds its own in `<step>/kinds.ts`. */
export const KINDS = {
  ...BRIEF_KINDS,
  ...CASES_KINDS,
  ...BUILDING_KINDS,
  ...PLAN_KINDS,
  ...FIELDWORK_KINDS,
  ...CUSTODY_KINDS,
  ...RESULTS_KINDS,
  ...FINDINGS_KINDS,
  ...CONTROL_KINDS,
  ...FOLLOW_UP_KINDS,
  ...REPORT_KINDS,
  ...RECORD_KINDS,
  ...DEVICES_KINDS,
  ...CONTESTS_KINDS,
} satisfies Record<string, KindDescription>

export type Kind = keyof typeof KINDS
export type BodyOf<K extends Kind> = z.infer<(typeof KINDS)[K]['body']>

export function isKind(value: string): value is Kind {
  return Object.hasOwn(KINDS, value)
}
