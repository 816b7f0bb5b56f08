import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { holdClock } from '../custody/custody-clock.ts'
import { roundClock } from '../follow-up/follow-up-clock.ts'

/** A clock that runs: what it is about, and how long is left, in words. */
export interface RunningClock {
  readonly about: string
  readonly left: string
  /** When it ends; the earliest is shown in the top bar. */
  readonly endsAt: number
  readonly late?: boolean | undefined
}

/** What runs now. Steps that own a clock (hold time, next round) add their function here. */
const CLOCKS: readonly ((state: InvestigationState, now: number) => RunningClock | undefined)[] = [
  holdClock,
  roundClock,
]

export function earliestClock(state: InvestigationState, now: number): RunningClock | undefined {
  const running = CLOCKS.map((clock) => clock(state, now)).filter((clock) => clock !== undefined)
  return running.sort((a, b) => a.endsAt - b.endsAt)[0]
}
