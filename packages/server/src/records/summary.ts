import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

/** One line of the list of investigations. */
export interface Summary {
  readonly id: string
  readonly title: string
  readonly locality?: string
  readonly openedOn?: string
  readonly closedOn?: string
  readonly head: Head
  readonly counts: {
    readonly entries: number
    readonly cases: number
    readonly samples: number
    readonly results: number
  }
}

export function summaryOf(state: InvestigationState, head: Head): Summary {
  const opened = state.brief.opened?.body
  const closedOn = state.followUp.closed?.body.closedOn
  return {
    id: state.investigation,
    title: opened?.title ?? state.investigation,
    ...(opened?.locality === undefined ? {} : { locality: opened.locality }),
    ...(opened === undefined ? {} : { openedOn: opened.openedOn }),
    ...(closedOn === undefined ? {} : { closedOn }),
    head,
    counts: {
      entries: state.record.entries.length,
      cases: state.cases.cases.size,
      samples: state.fieldwork.samples.size,
      results: state.results.results.length,
    },
  }
}
