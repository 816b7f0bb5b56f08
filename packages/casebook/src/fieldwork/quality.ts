import { PLANNING } from '../plan/planning.ts'
import { isLabelled } from '../plan/samples-at.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { standingOf, stopsOf, visitAt } from './stops.ts'

export interface QualityOwed {
  /** samples of points that are taken or still to be taken */
  readonly samples: number
  /** blanks and duplicates among what is taken or planned */
  readonly blanks: number
  readonly duplicates: number
  /** how many more of each so many samples call for */
  readonly blanksOwed: number
  readonly duplicatesOwed: number
}

/** Whether a round, with what was added and given up on the way, still has the blanks and duplicates its samples call for. */
export function qualityOwed(state: InvestigationState, round: string): QualityOwed {
  const kinds = stopsOf(state, round).flatMap(({ stop }) => {
    const visit = visitAt(state, { round, stop: stop.id })
    const over = visit?.finished !== undefined
    return stop.samples.flatMap((sample) => {
      const standing = standingOf(visit, sample)
      const counts = standing === 'collected' || (standing === 'open' && !over)
      return isLabelled(sample) && counts ? [sample.sampleKind] : []
    })
  })
  const count = (kind: string): number => kinds.filter((one) => one === kind).length
  const [blanks, duplicates] = [count('field-blank'), count('duplicate')]
  const samples = kinds.length - blanks - duplicates
  const called = samples < PLANNING.blankFromSamples ? 0 : Math.ceil(samples / PLANNING.samplesPerBlank)
  return {
    samples,
    blanks,
    duplicates,
    blanksOwed: Math.max(0, called - blanks),
    duplicatesOwed: Math.max(0, Math.round(samples / PLANNING.samplesPerDuplicate) - duplicates),
  }
}
