import type { Appliers, EffectiveEntry } from '../state/effective.ts'

export interface ReportState {
  /** the latest text of each section the user writes */
  readonly sections: Map<string, EffectiveEntry<'report.written'>>
  readonly issued: EffectiveEntry<'report.issued'>[]
}

export const emptyReport = (): ReportState => ({ sections: new Map(), issued: [] })

export const reportAppliers: Appliers<ReportState> = {
  'report.written': (state, entry) => {
    state.sections.set(entry.body.section, entry)
  },
  'report.issued': (state, entry) => {
    state.issued.push(entry)
  },
}
