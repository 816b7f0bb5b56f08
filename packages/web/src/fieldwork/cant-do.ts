import { DEVIATION_REASONS } from '@rillmark/casebook/fieldwork/kinds.ts'
import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'

export type DeviationReason = (typeof DEVIATION_REASONS)[number]

/** Reasons that only note what was different; the step itself is still done. */
const NOTING: ReadonlySet<DeviationReason> = new Set([
  'out of order',
  'already running on arrival',
  'neutralizer missing or short',
  'volume short',
  'calibration out of date',
])

/** Reasons after which nothing of the sample can follow, whatever step they were met at. */
const ENDING: ReadonlySet<DeviationReason> = new Set(['no access', 'no flow', 'not safe'])

export type Consequence = 'noted' | 'step left out' | 'sample left out'

/** What a reason means for the step at hand and its sample. */
export function consequenceOf(step: GuidedStep, reason: DeviationReason): Consequence {
  if (NOTING.has(reason)) return 'noted'
  if (step.sample === undefined) return 'step left out'
  const collects = step.step.kind === 'collect' || step.step.kind === 'label'
  return collects || ENDING.has(reason) ? 'sample left out' : 'step left out'
}

/** Reasons to choose from at a step, the likelier ones first; `other` last. */
export function reasonsFor(step: GuidedStep): readonly DeviationReason[] {
  const reading = step.quantity !== undefined
  const first: readonly DeviationReason[] = reading
    ? ['instrument out of range', 'no flow']
    : step.step.kind === 'neutralize'
      ? ['neutralizer missing or short']
      : step.sample?.sampleKind === 'first-flush-swab'
        ? ['fitting could not be removed', 'already running on arrival']
        : ['no flow', 'volume short']
  const last: readonly DeviationReason[] = ['other']
  const unfit = new Set<DeviationReason>(
    reading
      ? ['fitting could not be removed', 'volume short', 'neutralizer missing or short', 'already running on arrival']
      : ['instrument out of range', 'calibration out of date'],
  )
  const rest = DEVIATION_REASONS.filter(
    (reason) => !first.includes(reason) && !last.includes(reason) && !unfit.has(reason),
  )
  return [...first, ...rest, ...last]
}
