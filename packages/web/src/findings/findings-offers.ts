import { exposureFigures } from '@rillmark/casebook/cases/likely-exposure.ts'
import { definitionInUse } from '@rillmark/casebook/cases/windows.ts'
import { given } from '@rillmark/casebook/entry/given.ts'
import { CONFIDENCE_LEVEL } from '@rillmark/casebook/findings/confidence.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Offer } from '../calculators/offer.ts'

/** What one asks before writing a conclusion, with what the record counts filled in. */
export function findingsOffers(state: InvestigationState, rows: readonly SampleRow[]): readonly Offer[] {
  return [
    { id: 'proportion', question: 'How sure is a share of positive samples?', start: proportionStart(rows) },
    { id: 'two-by-two', question: 'Were the ill more often exposed than the well?' },
    { id: 'stratified-two-by-two', question: 'Does it hold within groups, such as floors or ages?' },
    { id: 'matched-sets', question: 'Does it hold where each case was matched with well people?' },
    { id: 'penalised-logistic', question: 'Which of several exposures counts, when there are few cases?' },
    {
      id: 'incubation',
      question: 'Which days before an onset matter, and how much each?',
      start: incubationStart(state),
    },
    {
      id: 'exposure-time',
      question: 'If one source exposed all at one time, when was it?',
      start: exposureStart(state),
    },
    { id: 'allele-distance', question: 'By how many alleles do the isolates differ?' },
    { id: 'minimum-spanning-tree', question: 'Which isolates lie nearest to which?' },
    { id: 'discrimination-index', question: 'How much is a match worth with this typing?', start: typesStart(state) },
    { id: 'shower-risk', question: 'What does a count in the water mean for a shower? As context, never a verdict' },
  ]
}

/** Water samples only: a swab with its few millilitres is looked at apart. */
function proportionStart(rows: readonly SampleRow[]): object {
  const water = rows.filter(({ medium }) => medium === 'water')
  const of = (wanted: SampleRow['outcome']): number => water.filter(({ outcome }) => outcome === wanted).length
  const [positive, total] = [of('positive'), of('positive') + of('negative')]
  return total === 0 ? {} : { positive, total, method: 'wilson', level: CONFIDENCE_LEVEL }
}

function incubationStart(state: InvestigationState): object {
  const [first] = exposureFigures(state.cases).onsets
  return given({ onsetDate: first?.from, definition: definitionInUse(state.cases) })
}

/** The same as the cases screen puts in. */
function exposureStart(state: InvestigationState): object {
  const figures = exposureFigures(state.cases)
  return figures.onsets.length === 0 ? {} : figures
}

/** How many isolates there are of each sequence type. */
function typesStart({ results }: InvestigationState): object {
  const counts = new Map<string, number>()
  for (const { body } of results.isolates.values())
    if (body.sequenceType !== undefined) counts.set(body.sequenceType, (counts.get(body.sequenceType) ?? 0) + 1)
  return counts.size === 0 ? {} : { counts: [...counts.values()] }
}
