import type { Step } from '../entry/steps.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { known } from './known.ts'
import { late } from './late.ts'
import { next } from './next.ts'
import { unknown } from './unknown.ts'

/** One line of the brief: said in words, and the step where it is dealt with. */
export interface BriefLine {
  readonly words: string
  readonly step: Step
  /** what to select there, if one thing is meant */
  readonly show?: string
}

export interface Brief {
  /** why the investigator was called, as written when the investigation was opened */
  readonly happened: string | undefined
  readonly known: readonly BriefLine[]
  readonly unknown: readonly BriefLine[]
  /** first what the order of the job asks for next */
  readonly next: readonly BriefLine[]
  readonly late: readonly BriefLine[]
}

/** When the brief is read: the instant, and the local day. */
export interface Moment {
  readonly nowMs: number
  readonly today: string
}

/** The whole investigation on one screen: what happened, what is known and unknown, what is next and what is late. */
export function briefView(state: InvestigationState, moment: Moment): Brief {
  return {
    happened: state.brief.opened?.body.reason,
    known: known(state),
    unknown: unknown(state),
    next: next(state, moment),
    late: late(state, moment),
  }
}
