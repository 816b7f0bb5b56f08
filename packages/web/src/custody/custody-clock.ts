import { nextHoldDeadline } from '@rillmark/casebook/custody/custody-view.ts'
import { leftWords } from '@rillmark/casebook/custody/time-words.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { RunningClock } from '../shell/clocks.ts'

/** The hold time that ends first: `Box 2: 9 h 20 min of hold time left`. */
export function holdClock(state: InvestigationState, now: number): RunningClock | undefined {
  const next = nextHoldDeadline(state, now)
  if (next === undefined) return undefined
  const { about, deadlineMs, leftMs } = next
  return { about, left: leftWords(leftMs, 'hold time'), endsAt: deadlineMs, late: leftMs < 0 }
}
