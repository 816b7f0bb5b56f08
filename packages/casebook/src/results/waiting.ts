import { arrivalOf, isRejected } from '../custody/arrival.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import { isInterpretable } from '../units/result-value.ts'
import { type KnownSample, knownSamples } from './known-samples.ts'
import { isTakenAgain } from './taken-again.ts'

export interface WaitingSample {
  readonly sample: KnownSample
  /** days since collection, where the day is known */
  readonly days: number | undefined
  readonly why: 'no result yet' | 'only preliminary' | 'not interpretable: sample again' | 'rejected: sample again'
}

/** Whether a sample must be taken again: what waits will never come of this one. */
export function mustBeTakenAgain(why: WaitingSample['why'] | undefined): boolean {
  return why === 'not interpretable: sample again' || why === 'rejected: sample again'
}

/** Samples that were collected and whose results are still out, oldest first. One that can't be read or was rejected waits until it was taken again. */
export function waitingSamples(state: InvestigationState, today: string): WaitingSample[] {
  const collected = [...knownSamples(state).values()].filter(
    // of a part somebody else may tell or not: what is waited for is the sample's own result
    ({ origin, sampleKind }) => origin !== 'planned' && origin !== 'part of a sample' && sampleKind !== 'readings-only',
  )
  const isUnread = (label: string): boolean => mustBeTakenAgain(whyWaiting(state, label))
  return collected
    .flatMap((sample): WaitingSample[] => {
      const why = whyWaiting(state, sample.label)
      if (mustBeTakenAgain(why) && isTakenAgain(sample, { others: collected, isUnread })) return []
      const days = sample.collectedOn === undefined ? undefined : daysBetween(sample.collectedOn, today)
      return why === undefined ? [] : [{ sample, days, why }]
    })
    .sort((a, b) => (b.days ?? 0) - (a.days ?? 0))
}

function whyWaiting(state: InvestigationState, label: string): WaitingSample['why'] | undefined {
  const results = state.results.resultsByLabel.get(label) ?? []
  if (results.length === 0) return wasRejected(state, label) ? 'rejected: sample again' : 'no result yet'
  if (results.every(({ body }) => !isInterpretable(body.value))) return 'not interpretable: sample again'
  return results.every(({ body }) => body.status === 'preliminary') ? 'only preliminary' : undefined
}

function wasRejected({ custody }: InvestigationState, label: string): boolean {
  const arrival = arrivalOf(custody, label)
  return arrival !== undefined && isRejected(arrival)
}
