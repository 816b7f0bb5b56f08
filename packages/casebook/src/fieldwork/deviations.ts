import { procedureIn } from '../plan/procedures-in-use.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { findStop } from './stops.ts'

/** A departure from plan or procedure as the report tells it. */
export interface Deviation {
  readonly id: string
  readonly round: string
  readonly stop: string
  readonly stopTitle: string
  /** title of the step it is about */
  readonly step?: string | undefined
  readonly label?: string | undefined
  readonly leftOut: boolean
  readonly reason: string
  readonly text?: string | undefined
  readonly instant: string
  readonly offset: string
  readonly author: string
}

/** Every deviation, in the order recorded; of one round, if named. Stops not wholly done say so with their reason. */
export function deviationsOf(state: InvestigationState, round?: string): readonly Deviation[] {
  const visits = [...state.fieldwork.visits.values()].filter((visit) => round === undefined || visit.round === round)
  const all = visits.flatMap(({ deviations, finished }) => [
    ...deviations.map((entry) => recorded(state, entry)),
    ...(finished === undefined || finished.body.outcome === 'sampled' ? [] : [unfinished(state, finished)]),
  ])
  return all.sort((a, b) => Date.parse(a.instant) - Date.parse(b.instant))
}

function recorded(state: InvestigationState, entry: EffectiveEntry<'deviation.recorded'>): Deviation {
  const { body } = entry
  const [step] = body.step?.split(':') ?? []
  const known = procedureIn(state, body.procedure ?? '')?.steps.find(({ id }) => id === step)
  return {
    ...envelope(state, entry),
    step: known?.title ?? body.step,
    label: body.label,
    leftOut: body.leftOut ?? false,
    reason: body.reason,
    text: body.text,
  }
}

function unfinished(state: InvestigationState, entry: EffectiveEntry<'stop.finished'>): Deviation {
  return { ...envelope(state, entry), leftOut: true, reason: entry.body.outcome, text: entry.body.reason }
}

function envelope(state: InvestigationState, entry: EffectiveEntry<'deviation.recorded' | 'stop.finished'>) {
  const { id, body, instant, offset, author } = entry
  const stopTitle = findStop(state, body)?.stop.title ?? body.stop
  return { id, round: body.round, stop: body.stop, stopTitle, instant, offset, author }
}
