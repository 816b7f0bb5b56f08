import type { CriteriaSet } from '../criteria/criteria-set.ts'
import {
  type FollowUpInput,
  type FollowUpRound,
  type FollowUpSchedule,
  followUpSchedule,
} from '@rillmark/science/follow-up/schedule.ts'
import { localDate } from '../units/local-time.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { IsoDate } from '@rillmark/science/calendar/iso-date.ts'
import { isDetected } from '../units/result-value.ts'
import { type CouldMiss, couldMiss } from './could-miss.ts'
import { criteriaOf } from './criteria-of.ts'
import { type RoundOutcome, roundOutcomes } from './round-outcomes.ts'

/** Where follow-up stands. */
export interface FollowUpView {
  readonly started: EffectiveEntry<'follow-up.started'> | undefined
  readonly criteria: CriteriaSet | undefined
  readonly schedule: FollowUpSchedule | undefined
  /** the remediation the clock first ran from */
  readonly firstFrom: IsoDate | undefined
  /** every adopted round and what came of it */
  readonly outcomes: readonly RoundOutcome[]
  /** the first round that still has to be sampled */
  readonly next: FollowUpRound | undefined
  readonly couldMiss: CouldMiss | undefined
  readonly closed: EffectiveEntry<'follow-up.closed'> | undefined
  /** why a closed investigation should perhaps be opened again */
  readonly reopenBecause: readonly string[]
  /** remediation completed after the clock started: start again from there? */
  readonly remediatedSince: readonly { readonly on: IsoDate; readonly what: string }[]
}

/** The rounds that follow the remediation, by the criteria set they were started with: what is due, late, negative, and why the clock restarted. */
export function followUpView(state: InvestigationState, today: IsoDate): FollowUpView {
  const { started, closed } = state.followUp
  const criteria = started === undefined ? undefined : criteriaOf(state, started.body)
  const outcomes = roundOutcomes(state, criteria)
  const schedule = scheduleOn(state, today)
  const since = schedule?.countsFrom
  return {
    started,
    criteria,
    schedule,
    firstFrom: started === undefined ? undefined : remediationDays(state, started.body.remediationCompletedOn).first,
    outcomes,
    next: schedule?.rounds.find(({ collectedOn }) => collectedOn === undefined),
    couldMiss: couldMiss(
      state,
      outcomes.filter(
        ({ outcome, collectedOn }) => outcome === 'negative' && since !== undefined && (collectedOn ?? '') > since,
      ),
    ),
    closed,
    reopenBecause: closed === undefined ? [] : reopenReasons(state, closed),
    remediatedSince: since === undefined ? [] : remediationsAfter(state, since),
  }
}

/** The schedule as the record says it on a day; samplings after that day are left out. Undefined before a start, or where the set is not known. */
export function scheduleOn(state: InvestigationState, day: IsoDate): FollowUpSchedule | undefined {
  const asked = scheduleAskedOn(state, day)
  return asked === undefined ? undefined : followUpSchedule(asked)
}

/** What the schedule of a day is reckoned from. */
export function scheduleAskedOn(state: InvestigationState, day: IsoDate): FollowUpInput | undefined {
  const { started } = state.followUp
  const criteria = started === undefined ? undefined : criteriaOf(state, started.body)
  const rule = criteria?.followUp?.rule
  if (started === undefined || rule === undefined) return undefined
  const { first, further } = remediationDays(state, started.body.remediationCompletedOn)
  const samplings = roundOutcomes(state, criteria).flatMap(({ collectedOn, outcome, purpose }) => {
    if (collectedOn === undefined || outcome === 'not sampled' || outcome === 'begun' || collectedOn > day) return []
    return purpose === 'initial' && collectedOn <= first ? [] : [{ collectedOn, outcome }]
  })
  return { rule, remediationCompletedOn: first, furtherRemediationsOn: further, samplings, today: day }
}

/** The day follow-up first started from, and the later ones; a start with an earlier day than those before takes their place. */
function remediationDays(state: InvestigationState, latest: IsoDate): { first: IsoDate; further: IsoDate[] } {
  const days = state.followUp.starts.map(({ body }) => body.remediationCompletedOn).filter((day) => day <= latest)
  const [first = latest, ...further] = [...new Set(days)].sort()
  return { first, further }
}

function reopenReasons(state: InvestigationState, closed: EffectiveEntry<'follow-up.closed'>): string[] {
  const after = ({ instant }: { instant: string }): boolean => instant > closed.instant
  const cases = [...state.cases.cases.values()].filter(
    (each) => after(each) && each.body.classification !== 'not a case',
  )
  const positives = state.results.results.filter(
    (each) =>
      after(each) &&
      isDetected(each.body.value) &&
      each.body.halfLimitSuspected !== true &&
      !isBlank(state, each.body.label),
  )
  return [
    ...cases.map(({ body }) => `case ${body.code} was recorded after closing`),
    ...positives.map((each) => `${each.body.label} was reported positive on ${localDate(each)}, after closing`),
  ]
}

const isBlank = (state: InvestigationState, label: string): boolean =>
  state.fieldwork.samples.get(label)?.body.sampleKind === 'field-blank' ||
  state.results.registered.get(label)?.body.sampleKind === 'field-blank'

function remediationsAfter(state: InvestigationState, day: IsoDate): { on: IsoDate; what: string }[] {
  return [...state.control.measures.values()].flatMap(({ ordered, completed }) => {
    if (ordered.body.stage !== 'remediation' || completed === undefined) return []
    const { completedOn, outcome } = completed.body
    return outcome === 'dropped' || completedOn <= day
      ? []
      : [{ on: completedOn, what: `${ordered.body.measure}, ${ordered.body.where}` }]
  })
}
