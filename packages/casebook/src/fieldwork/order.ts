import type { Entry } from '../entry/entry.ts'
import { SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import { procedureIn } from '../plan/procedures-in-use.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { StopVisit } from './state.ts'
import { READING_QUANTITY_WORDS } from './reading-words.ts'
import { openSamples, type StopAt, visitAt } from './stops.ts'

/** Samples that let no water of the point run. */
const STILL: ReadonlySet<string> = new Set(['first-flush-swab', 'field-blank'])

/**
 * A visit without what came after an entry: what its own device wrote later, and what was written in knowledge of it. Only an account that
 * counts later than it was written (two devices told one visit) has anything after it.
 */
export function visitBefore(state: InvestigationState, entry: Entry & { body: StopAt }): StopVisit | undefined {
  const visit = visitAt(state, entry.body)
  const contest = state.contests.contested.get(entry.id)
  if (visit === undefined || contest === undefined) return visit
  const known = state.record.entries.findIndex(({ id }) => id === contest.contested.id) + 1
  const isBefore = ({ id }: { id: string }): boolean => {
    const other = state.record.versions.get(id)?.first
    if (other === undefined) return true
    return other.device === entry.device
      ? other.deviceSequence < entry.deviceSequence
      : known === 0 || (other.seen ?? 0) < known
  }
  const { steps, samples, readings } = visit
  return {
    ...visit,
    steps: steps.filter(isBefore),
    samples: samples.filter(isBefore),
    readings: readings.filter(isBefore),
  }
}

/** What already ran at a stop, in words; undefined while its first water is still there. */
function ranBefore(state: InvestigationState, visit: StopVisit | undefined): string | undefined {
  if (visit === undefined) return undefined
  const sample = visit.samples.find(({ body }) => !STILL.has(body.sampleKind))
  if (sample !== undefined) return `${SAMPLE_KIND_WORDS[sample.body.sampleKind]} ${sample.body.label} was collected`
  const reading = visit.readings[0]
  if (reading !== undefined) return `the ${READING_QUANTITY_WORDS[reading.body.quantity]} was read`
  const step = visit.steps.find(({ body }) => runs(state, body))
  return step === undefined ? undefined : `the step "${step.body.step}" ran the water`
}

function runs(state: InvestigationState, { procedure, step }: { procedure: string; step: string }): boolean {
  const kind = procedureIn(state, procedure)?.steps.find(({ id }) => id === step)?.kind
  return kind === 'run' || kind === 'read'
}

/** True when the stop's departure from the order is on record. */
const orderLeft = (visit: StopVisit | undefined): boolean =>
  visit?.deviations.some(({ body }) => body.reason === 'out of order') ?? false

/** Why the first water can't be sampled any more; undefined when it can or the departure is recorded. */
export function firstFlushTooLate(state: InvestigationState, visit: StopVisit | undefined): string | undefined {
  return orderLeft(visit) ? undefined : ranBefore(state, visit)
}

/** Why a hot reading comes too early; undefined when every sample is there, or the departure is recorded. */
export function hotTooEarly(state: InvestigationState, at: StopAt): string | undefined {
  if (orderLeft(visitAt(state, at))) return undefined
  const open = openSamples(state, at).filter(({ sampleKind }) => sampleKind !== 'field-blank')
  const words = open.map(({ sampleKind, label }) => [SAMPLE_KIND_WORDS[sampleKind], label].filter(Boolean).join(' '))
  return open.length === 0 ? undefined : `${words.join(', ')} still to be taken`
}

/** Why a sample comes too late, after the hot reading; undefined when none was taken or the departure is recorded. */
export function afterHot(visit: StopVisit | undefined): string | undefined {
  if (visit === undefined || orderLeft(visit)) return undefined
  return visit.readings.some(({ body }) => body.quantity === 'hot-temperature')
    ? 'the hot reading was already taken'
    : undefined
}
