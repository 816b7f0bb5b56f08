import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface BriefState {
  opened: EffectiveEntry<'investigation.opened'> | undefined
  readonly notes: EffectiveEntry<'note.written'>[]
  readonly calculations: EffectiveEntry<'calculation.recorded'>[]
  /** answers by the id of the question */
  readonly settled: Map<string, EffectiveEntry<'question.settled'>>
}

export const emptyBrief = (): BriefState => ({ opened: undefined, notes: [], calculations: [], settled: new Map() })

export const briefAppliers: Appliers<BriefState> = {
  'investigation.opened': (state, entry) => {
    state.opened ??= entry
  },
  'note.written': (state, entry) => {
    state.notes.push(entry)
  },
  'calculation.recorded': (state, entry) => {
    state.calculations.push(entry)
  },
  'question.settled': (state, entry) => {
    state.settled.set(entry.body.question, entry)
  },
}
