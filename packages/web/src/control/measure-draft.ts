import type { MeasureKind } from '@rillmark/casebook/control/measure-progress.ts'
import type { Stage } from '@rillmark/casebook/control/control-view.ts'
import type { Amount } from '@rillmark/casebook/control/target-words.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { numberIn } from '../store/typed-values.ts'

export const QUANTITIES = ['temperature', 'free chlorine', 'total chlorine', 'flush time', 'other'] as const
export type Quantity = (typeof QUANTITIES)[number]

export interface TargetDraft {
  /** id of the published target it was taken from, `own` or `none` */
  readonly from: string
  readonly quantity: Quantity
  readonly value: string
  readonly unit: string
  readonly minutes: string
}

export const NO_TARGET: TargetDraft = { from: 'none', quantity: 'other', value: '', unit: '', minutes: '' }

/** What a quantity is measured in. */
export function unitFor(quantity: Quantity): string {
  const units = { temperature: '°C', 'free chlorine': 'mg/L', 'total chlorine': 'mg/L', 'flush time': 'min', other: '' }
  return units[quantity]
}

/** The target as an entry keeps it, or what is missing. No target asked for is none. */
export function targetOf(draft: TargetDraft): { target: Amount | undefined } | { issues: Issue[] } {
  if (draft.from === 'none') return { target: undefined }
  const value = numberIn(draft.value)
  const minutes = numberIn(draft.minutes)
  if (value === undefined) return { issues: [issue('target', { expected: 'a number', received: draft.value })] }
  if (minutes === undefined && draft.minutes.trim() !== '')
    return { issues: [issue('target', { expected: 'a number of minutes', received: draft.minutes })] }
  const unit = draft.unit === '' ? '–' : draft.unit
  return { target: { quantity: draft.quantity, value, unit, ...(minutes === undefined ? {} : { minutes }) } }
}

/** The stage a measure most often belongs to. */
export function usualStage(measure: MeasureKind): Stage {
  if (
    measure === 'restrict use' ||
    measure === 'fit point-of-use filter' ||
    measure === 'flush' ||
    measure === 'take out of use'
  )
    return 'immediate'
  return measure === 'continuous disinfection' || measure === 'change setting' ? 'long-term' : 'remediation'
}
