import type { InvestigationState } from '../state/investigation-state.ts'
import { mustBeTakenAgain, waitingSamples } from '../results/waiting.ts'

/** A sample that has to be taken again, and why. */
export interface OwedSample {
  readonly label: string
  readonly round: string | undefined
  readonly stop: string | undefined
  readonly why: string
}

/** Samples the plan is still owed: rejected by the laboratory or unreadable, and not taken again since. */
export function owedSamples(state: InvestigationState, today: string): OwedSample[] {
  return waitingSamples(state, today)
    .filter(({ why }) => mustBeTakenAgain(why))
    .map(({ sample: { label, round, stop, condition }, why }) => ({
      label,
      round,
      stop,
      why:
        why === 'rejected: sample again'
          ? `rejected by the laboratory: ${condition ?? 'no reason given'}`
          : 'its result can’t be read',
    }))
}
