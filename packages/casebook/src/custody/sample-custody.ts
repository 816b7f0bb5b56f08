import { SAMPLE_KIND_WORDS, type SampleKind } from '../entry/fields.ts'
import { componentName } from '../building/labels.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { isRejected } from './arrival.ts'
import { happenedAt } from './happened-at.ts'
import { type Hold, holdOf } from './hold.ts'
import { holderOf, type Worker } from './holder.ts'
import type { CONDITIONS } from './kinds.ts'
import { volumeLeftMl } from './origin.ts'

export type Condition = (typeof CONDITIONS)[number]

/** Where one sample is, how long it has left, and how it arrived. */
export interface SampleCustody {
  readonly label: string
  readonly sampleKind: SampleKind
  readonly kindWords: string
  readonly round: string
  readonly stop: string
  /** the place in words, as the plan or the building names it */
  readonly place: string
  readonly collectedAt: string
  readonly offset: string
  readonly volumeMl: number | undefined
  /** what is left of its volume after splits */
  readonly leftMl: number | undefined
  /** the sample this is a part of, and for whom it was divided */
  readonly splitOf: { readonly label: string; readonly to: Worker } | undefined
  /** labels of the parts divided from it */
  readonly parts: readonly string[]
  readonly neutralized: boolean
  /** the consignment it is in, or was received in */
  readonly consignment: string | undefined
  readonly hold: Hold | undefined
  /** when its hold time ends, ms since 1970 */
  readonly deadlineMs: number | undefined
  /** time left now; at the laboratory, what was left on arrival */
  readonly leftMs: number | undefined
  readonly clock: 'running' | 'over' | 'stopped in time' | 'stopped late' | 'none'
  readonly condition: Condition | undefined
  readonly conditionNotes: string | undefined
  /** the laboratory will not examine it */
  readonly rejected: boolean
  readonly receivedAt: string | undefined
  /** a result is in the record */
  readonly examined: boolean
}

const HOUR_MS = 3_600_000

/**
 * The custody of one sample. Its hold time runs from the instant it was collected, by the procedure it was taken by, until the laboratory
 * took it in; a sample with a result no longer runs, even where nobody wrote the receipt down.
 */
export function sampleCustody(
  state: InvestigationState,
  { sample, split, nowMs }: { sample: Collected; split?: EffectiveEntry<'sample.split'>; nowMs: number },
): SampleCustody {
  const { sampleKind, round, stop, neutralizer } = sample.body
  const { label, volumeMl } = split === undefined ? sample.body : { ...split.body, label: split.body.split }
  const hold = holdOf(state, sample)
  const consignment = state.custody.consignmentOf.get(label)
  const received = consignment === undefined ? undefined : state.custody.consignments.get(consignment)?.received
  const receivedAt = received === undefined ? undefined : happenedAt(received)
  const arrival = received?.body.samples.find((each) => each.label === label)
  const deadlineMs = hold === undefined ? undefined : Date.parse(sample.instant) + hold.hours * HOUR_MS
  const examined = state.results.resultsByLabel.has(label)
  const given = split !== undefined && wasGiven(state, consignment)
  const running = clockOf({ deadlineMs, receivedAt, nowMs, settled: examined || given })
  return {
    label,
    sampleKind,
    kindWords: SAMPLE_KIND_WORDS[sampleKind],
    round,
    stop,
    place: placeOf(state, sample),
    collectedAt: sample.instant,
    offset: sample.offset,
    volumeMl,
    leftMl: volumeLeftMl(state, { label }),
    splitOf: split === undefined ? undefined : { label: split.body.label, to: split.body.to },
    parts: [...state.custody.splits.values()].filter(({ body }) => body.label === label).map(({ body }) => body.split),
    neutralized: (neutralizer?.solutionVolumeMl ?? 0) > 0,
    consignment,
    hold,
    deadlineMs,
    ...running,
    condition: arrival?.condition,
    conditionNotes: arrival?.notes,
    rejected: arrival !== undefined && isRejected(arrival),
    receivedAt,
    examined,
  }
}

type Collected = EffectiveEntry<'sample.collected'>

/** A part that was handed over is with the other party: its time is theirs. */
function wasGiven({ custody }: InvestigationState, consignment: string | undefined): boolean {
  const box = consignment === undefined ? undefined : custody.consignments.get(consignment)
  return box !== undefined && holderOf(box) !== undefined
}

function clockOf(on: {
  deadlineMs: number | undefined
  receivedAt: string | undefined
  nowMs: number
  settled: boolean
}): Pick<SampleCustody, 'leftMs' | 'clock'> {
  const { deadlineMs, receivedAt, nowMs } = on
  if (deadlineMs === undefined) return { leftMs: undefined, clock: 'none' }
  if (receivedAt !== undefined) {
    const leftMs = deadlineMs - Date.parse(receivedAt)
    return { leftMs, clock: leftMs >= 0 ? 'stopped in time' : 'stopped late' }
  }
  if (on.settled) return { leftMs: undefined, clock: 'none' }
  const leftMs = deadlineMs - nowMs
  return { leftMs, clock: leftMs >= 0 ? 'running' : 'over' }
}

function placeOf(state: InvestigationState, { body }: EffectiveEntry<'sample.collected'>): string {
  const planned = state.plan.rounds.get(body.round)?.body.plan.stops.find(({ id }) => id === body.stop)
  const added = state.fieldwork.addedStops.find(
    (each) => each.body.round === body.round && each.body.stop.id === body.stop,
  )
  const title = planned?.title ?? added?.body.stop.title
  if (title !== undefined) return title
  const component = body.component === undefined ? undefined : state.building.working.component(body.component)
  return component === undefined ? (body.component ?? body.stop) : componentName(component)
}
