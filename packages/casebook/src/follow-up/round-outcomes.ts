import { arrivalOf, isRejected } from '../custody/arrival.ts'
import type { CriteriaSet } from '../criteria/criteria-set.ts'
import { judge } from '../criteria/judge.ts'
import { judgeShare } from '../criteria/judge-share.ts'
import type { SamplingOutcome } from '@rillmark/science/follow-up/schedule.ts'
import { localDate } from '../units/local-time.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { IsoDate } from '@rillmark/science/calendar/iso-date.ts'
import { isDetected, isInterpretable } from '../units/result-value.ts'
import { counted } from '../units/counted.ts'
import { type RoundPoints, roundPoints } from './round-points.ts'

type Sample = EffectiveEntry<'sample.collected'>
type Result = EffectiveEntry<'result.reported'>

/** What came of one adopted round. */
export interface RoundOutcome {
  readonly round: string
  readonly purpose: 'initial' | 'follow-up' | 'extra'
  readonly scheduledOn: IsoDate | undefined
  /** the local day its last sample was collected; undefined before the first */
  readonly collectedOn: IsoDate | undefined
  /** the samples that count: blanks and readings do not */
  readonly labels: readonly string[]
  /** `begun`: points of it are still open, so it fills no round of the rule yet */
  readonly outcome: SamplingOutcome | 'not sampled' | 'begun'
  readonly positiveLabels: readonly string[]
  readonly waitingLabels: readonly string[]
  /** overgrown, broken, not tested, rejected by the laboratory */
  readonly unreadableLabels: readonly string[]
  /** outlets and other points whose samples were all readable and negative */
  readonly negativePoints: readonly string[]
  readonly reason: string
}

/**
 * The outcome of each adopted round, by what the criteria set means by positive (without one: any detection).
 *
 * Positive as soon as one result makes it so, also a preliminary one. Begun while a planned point is neither sampled nor given up with a
 * reason. Pending while a sample still waits. Negative only when every point has
 * been read at least once: a point with nothing but overgrown or broken samples leaves the round not interpretable. Field blanks test the
 * handling and readings are no samples; neither counts.
 */
export function roundOutcomes(state: InvestigationState, criteria?: CriteriaSet): RoundOutcome[] {
  const taken = [...state.fieldwork.samples.values()].filter(
    ({ body }) => body.sampleKind !== 'field-blank' && body.sampleKind !== 'readings-only',
  )
  return [...state.plan.rounds.values()].map(({ body: { round, purpose, scheduledOn } }) => {
    const samples = taken.filter(({ body }) => body.round === round)
    const read = samples.map((sample) => readSample(sample, { state, criteria }))
    return {
      round,
      purpose,
      scheduledOn,
      collectedOn: samples.map(localDate).sort().at(-1),
      ...outcomeOf(read, { criteria, points: roundPoints(state, round) }),
    }
  })
}

interface ReadSample {
  readonly label: string
  readonly point: string
  readonly is: 'detected' | 'positive' | 'negative' | 'waiting' | 'unreadable'
}

function readSample(
  { body: { label, component, stop, sampleKind } }: Sample,
  { state, criteria }: { state: InvestigationState; criteria: CriteriaSet | undefined },
): ReadSample {
  const results = standing(state.results.resultsByLabel.get(label) ?? [])
  return {
    label,
    point: component ?? stop,
    is: standingOf(results, { criteria, sampleKind, rejected: isRejectedAtDoor(state, label) }),
  }
}

const FINALITY = { preliminary: 0, final: 1, corrected: 2 } as const

/** Reports that still stand: a final one takes the place of a preliminary one of the same laboratory, method and target, a corrected one of both. */
function standing(results: readonly Result[]): Result[] {
  return results.filter(
    ({ body }, index) =>
      !results.some(
        (later, at) =>
          at > index &&
          FINALITY[later.body.status] > FINALITY[body.status] &&
          later.body.laboratory === body.laboratory &&
          later.body.method === body.method &&
          later.body.target === body.target,
      ),
  )
}

function standingOf(
  results: readonly Result[],
  by: { criteria: CriteriaSet | undefined; sampleKind: Sample['body']['sampleKind']; rejected: boolean },
): ReadSample['is'] {
  const found = results.filter(({ body }) => isDetected(body.value) && body.halfLimitSuspected !== true)
  if (found.some((result) => callsForAction(result, by))) return 'positive'
  if (found.length > 0) return 'detected'
  if (results.length === 0) return by.rejected ? 'unreadable' : 'waiting'
  if (results.every(({ body }) => body.status === 'preliminary')) return 'waiting'
  return results.some(({ body }) => isInterpretable(body.value)) ? 'negative' : 'unreadable'
}

/** Whether one detection alone is what the rule calls positive. */
function callsForAction(
  { body }: Result,
  { criteria, sampleKind }: { criteria: CriteriaSet | undefined; sampleKind: Sample['body']['sampleKind'] },
): boolean {
  const meaning = criteria?.followUp?.positiveMeans ?? 'any detection'
  if (criteria === undefined || meaning === 'any detection') return true
  if (meaning === 'the share calls for action') return false
  const { value, species } = body
  const judged = judge({ criteria, sampleKind, value, ...(species === undefined ? {} : { species }) })
  // what can't be placed in a band is never taken for harmless
  if (judged.kind === 'undecided') return judged.possible.some(({ urgency }) => isUrgent(urgency))
  return judged.kind === 'band' && isUrgent(judged.band.urgency)
}

const isUrgent = (urgency: string): boolean => urgency === 'act' || urgency === 'act now'

function outcomeOf(
  read: readonly ReadSample[],
  { criteria, points: planned }: { criteria: CriteriaSet | undefined; points: RoundPoints },
): Omit<RoundOutcome, 'round' | 'purpose' | 'scheduledOn' | 'collectedOn'> {
  const labelsOf = (...kinds: ReadSample['is'][]): string[] =>
    read.filter(({ is }) => kinds.includes(is)).map(({ label }) => label)
  const positiveLabels = labelsOf('positive')
  const waitingLabels = labelsOf('waiting')
  const unreadableLabels = labelsOf('unreadable')
  const points = [...new Set(read.map(({ point }) => point))]
  const readable = (point: string) => read.filter((each) => each.point === point && each.is !== 'unreadable')
  const common = {
    labels: read.map(({ label }) => label),
    positiveLabels,
    waitingLabels,
    unreadableLabels,
    negativePoints: points.filter((point) => {
      const at = readable(point)
      return at.length > 0 && at.every(({ is }) => is === 'negative')
    }),
  }
  const say = (outcome: RoundOutcome['outcome'], reason: string) => ({
    ...common,
    outcome,
    reason: [reason, ...givenUpWords(outcome, planned)].join('; '),
  })
  if (read.length === 0) return say('not sampled', 'no sample has been collected')
  if (positiveLabels.length > 0)
    return say('positive', `${counted(positiveLabels.length, 'positive sample')} of ${read.length}`)
  if (criteria?.followUp?.positiveMeans === 'the share calls for action') {
    const share = shareReason(read, criteria)
    if (share !== undefined) return { ...say('positive', share), positiveLabels: labelsOf('detected') }
  }
  if (planned.open > 0)
    return say(
      'begun',
      `${planned.open} of ${counted(planned.planned, 'point')} neither sampled nor given up with a reason`,
    )
  if (waitingLabels.length > 0)
    return say('pending', `${counted(waitingLabels.length, 'sample')} of ${read.length} without a final result`)
  const unread = points.filter((point) => readable(point).length === 0)
  if (unread.length > 0)
    return say(
      'not interpretable',
      `${counted(unread.length, 'point')} with no readable sample: take ${unread.length === 1 ? 'it' : 'them'} again`,
    )
  const found = labelsOf('detected').length
  return say(
    'negative',
    found === 0
      ? `nothing found in ${counted(read.length, 'sample')}`
      : `${counted(found, 'detection')} of ${read.length}, below what the rule calls positive`,
  )
}

/** A round may be done with points that were given up; how many is always said beside its outcome. */
function givenUpWords(outcome: RoundOutcome['outcome'], { planned, givenUp }: RoundPoints): string[] {
  if (givenUp === 0 || outcome === 'not sampled') return []
  return [`${givenUp} of ${counted(planned, 'planned point')} given up`]
}

/** Said once every sample was read, or once what was found already decides it. */
function shareReason(read: readonly ReadSample[], criteria: CriteriaSet): string | undefined {
  const total = read.filter(({ is }) => is !== 'unreadable').length
  const positive = read.filter(({ is }) => is === 'detected').length
  const judged = judgeShare(criteria, { positive, total })
  return judged.kind === 'band' && isUrgent(judged.band.urgency)
    ? `${positive} of ${total} positive: ${judged.band.label}`
    : undefined
}

/** The laboratory said at its door that it will not examine it. */
function isRejectedAtDoor({ custody }: InvestigationState, label: string): boolean {
  const arrival = arrivalOf(custody, label)
  return arrival !== undefined && isRejected(arrival)
}
