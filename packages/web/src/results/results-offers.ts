import { countReadings } from '@rillmark/casebook/findings/count-summary.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Offer } from '../calculators/offer.ts'

/** What one asks of a laboratory's figures; the counts in water that are in are filled in. */
export function resultsOffers(state: InvestigationState): readonly Offer[] {
  return [
    { id: 'plate-count', question: 'What do colonies on the plates say about the water?' },
    { id: 'most-probable-number', question: 'What do positive and negative wells say about the water?' },
    {
      id: 'censored-summary',
      question: 'What do all counts say together, those below a limit among them?',
      start: censoredStart(state),
    },
  ]
}

/** Culture counts in water, CFU/L. */
function censoredStart(state: InvestigationState): object {
  const water = sampleRows(state).filter(({ medium }) => medium === 'water')
  const readings = countReadings(water, { method: 'culture', unit: 'CFU/L' }).filter(({ value }) => value > 0)
  if (readings.length === 0) return {}
  return { values: readings.map(({ value, limit }) => (limit ? { below: value } : value)) }
}
