import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import type { DraftHandle } from './drafts.ts'

export interface StepProps {
  readonly step: GuidedStep
  /** what is half done at this stop */
  readonly draft: DraftHandle
  /** what stays the same over the day: instruments, neutralizer */
  readonly day: DraftHandle
}
