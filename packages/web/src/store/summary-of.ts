import type { InvestigationSummary } from './device.tsx'
import type { InvestigationStore } from './investigation-store.ts'

/** What the list of investigations tells of one that is open, but for how much of it is here. */
export function summaryOf(store: InvestigationStore): Omit<InvestigationSummary, 'copy'> {
  const { state, sync } = store.snapshot()
  const opened = state.brief.opened?.body
  return {
    id: store.id,
    title: opened?.title ?? store.id,
    locality: opened?.locality,
    openedOn: opened?.openedOn,
    entries: state.record.entries.length,
    kept: sync.words,
  }
}
