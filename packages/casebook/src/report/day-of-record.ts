import { localDate } from '../units/local-time.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

const BEFORE_ANY_ENTRY = '1970-01-01'

/** The local day of the latest entry: what a report speaks of, so that it follows from the record alone. */
export function dayOfRecord({ record }: Pick<InvestigationState, 'record'>): string {
  return record.entries.reduce((latest, entry) => {
    const day = localDate(entry)
    return day > latest ? day : latest
  }, BEFORE_ANY_ENTRY)
}
