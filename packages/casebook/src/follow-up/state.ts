import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface FollowUpState {
  /** the latest start; starting again after new remediation replaces it */
  started: EffectiveEntry<'follow-up.started'> | undefined
  readonly starts: EffectiveEntry<'follow-up.started'>[]
  closed: EffectiveEntry<'follow-up.closed'> | undefined
}

export const emptyFollowUp = (): FollowUpState => ({ started: undefined, starts: [], closed: undefined })

export const followUpAppliers: Appliers<FollowUpState> = {
  'follow-up.started': (state, entry) => {
    state.started = entry
    state.starts.push(entry)
  },
  'follow-up.closed': (state, entry) => {
    state.closed = entry
  },
  'follow-up.reopened': (state) => {
    state.closed = undefined
  },
}
