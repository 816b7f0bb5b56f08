import { type IsoDate, addDays, addMonths, daysBetween, laterOf } from '../calendar/iso-date.ts'
import type { FollowUpPhase, FollowUpRule } from './follow-up-rule.ts'

export type SamplingOutcome = 'negative' | 'positive' | 'pending' | 'not interpretable'

/** One sampling of the whole round: positive when any of its samples is, by the rule's own meaning of positive. */
export interface SamplingSoFar {
  readonly collectedOn: IsoDate
  readonly outcome: SamplingOutcome
}

export interface FollowUpInput {
  readonly rule: FollowUpRule
  readonly remediationCompletedOn: IsoDate
  /** later remediations, for instance after a positive */
  readonly furtherRemediationsOn?: readonly IsoDate[]
  readonly samplings?: readonly SamplingSoFar[]
  /** without it, nothing can be called due or late */
  readonly today?: IsoDate
}

export interface FollowUpRound {
  readonly number: number
  readonly phase: 'first sample' | number
  readonly earliestOn: IsoDate
  readonly dueOn: IsoDate
  readonly latestOn: IsoDate
  readonly state: 'waiting' | 'due' | 'late' | 'sampled' | 'negative'
  readonly collectedOn?: IsoDate
}

export interface FollowUpSchedule {
  readonly state: 'waiting' | 'due' | 'late' | 'met' | 'restarted'
  /** the day the clock runs from now */
  readonly countsFrom: IsoDate
  readonly rounds: readonly FollowUpRound[]
  readonly restarts: readonly { readonly on: IsoDate; readonly reason: string }[]
  /** samplings that count for no round, each with its reason; never dropped silently */
  readonly notCounted: readonly (SamplingSoFar & { readonly reason: string })[]
  readonly closing: { readonly met: boolean; readonly earliestOn: IsoDate; readonly reason: string }
}

/**
 * The rounds of samples that follow a remediation, what is due or late today, and whether the rule for closing is met.
 *
 * Why: follow-up is where investigations are dropped too early. Every round is counted from the remediation; a positive starts the
 * whole series again from the later of that sampling and the next remediation; a plate that cannot be read counts for nothing.
 * Rounds of a phase fall at start + i × interval, as long as they are not after start + duration; a phase starts where the one before ends.
 * A sampling belongs to the first round still open whose earliest day it has reached. A late sampling never shortens the series: the
 * next round waits at least `minGapDays`.
 *
 * @throws RangeError when a date does not exist.
 * @source none: the rule comes from the criteria set in use, which names its own
 */
export function followUpSchedule(input: FollowUpInput): FollowUpSchedule {
  const { rule, today } = input
  const samplings = [...(input.samplings ?? [])].sort((a, b) => daysBetween(b.collectedOn, a.collectedOn))
  const { countsFrom, restarts } = clockOf(input, samplings)
  const notCounted: (SamplingSoFar & { reason: string })[] = []
  const open = datesOf(rule, countsFrom)
  const rounds = assign({ open, rule, countsFrom, samplings, notCounted })
  const shown = rounds.map((round) => withState(round, today))
  return {
    state: stateOf(shown, restarts.length > 0),
    countsFrom,
    rounds: shown,
    restarts,
    notCounted,
    closing: closingOf(shown, countsFrom),
  }
}

interface PlannedRound {
  readonly phase: 'first sample' | number
  readonly dueOn: IsoDate
  readonly earliestOn: IsoDate
  readonly latestOn: IsoDate
}

type AssignedRound = Omit<FollowUpRound, 'state'> & { readonly outcome?: SamplingOutcome }

/** Where the clock stands after every positive so far. */
function clockOf(
  input: FollowUpInput,
  samplings: readonly SamplingSoFar[],
): { countsFrom: IsoDate; restarts: { on: IsoDate; reason: string }[] } {
  const restarts: { on: IsoDate; reason: string }[] = []
  let countsFrom = addDays(input.remediationCompletedOn, 0)
  if (input.rule.restartOnPositive) {
    for (const { collectedOn, outcome } of samplings) {
      if (outcome !== 'positive' || collectedOn < countsFrom) continue
      countsFrom = addDays(collectedOn, 0)
      restarts.push({ on: countsFrom, reason: `positive in the sampling of ${collectedOn}` })
    }
  }
  for (const on of [...(input.furtherRemediationsOn ?? [])].sort()) {
    if (addDays(on, 0) <= countsFrom) continue
    countsFrom = on
    restarts.push({ on, reason: `remediation completed again on ${on}` })
  }
  return { countsFrom, restarts }
}

function datesOf(rule: FollowUpRule, countsFrom: IsoDate): PlannedRound[] {
  const first = rule.firstSample
  const rounds: PlannedRound[] = []
  if (first !== undefined) {
    const dueOn = addDays(countsFrom, first.minDays)
    rounds.push({ phase: 'first sample', dueOn, earliestOn: dueOn, latestOn: addDays(countsFrom, first.maxDays) })
  }
  let [monthsBefore, daysBefore] = [0, 0]
  for (const [index, phase] of rule.phases.entries()) {
    const at = (months: number, days: number): IsoDate =>
      addDays(addMonths(countsFrom, monthsBefore + months), daysBefore + days)
    for (const dueOn of phaseDates(phase, at)) rounds.push({ phase: index + 1, dueOn, ...windowOf(rule, dueOn) })
    monthsBefore += phase.forMonths ?? 0
    daysBefore += phase.forDays ?? 0
  }
  return rounds
}

function phaseDates(phase: FollowUpPhase, at: (months: number, days: number) => IsoDate): IsoDate[] {
  const end = at(phase.forMonths ?? 0, phase.forDays ?? 0)
  const dates: IsoDate[] = []
  for (let i = 1; ; i += 1) {
    const date = at(i * (phase.everyMonths ?? 0), i * (phase.everyDays ?? 0))
    if (date > end) return dates
    dates.push(date)
  }
}

function windowOf(rule: FollowUpRule, dueOn: IsoDate): { earliestOn: IsoDate; latestOn: IsoDate } {
  return { earliestOn: addDays(dueOn, -rule.window.beforeDays), latestOn: addDays(dueOn, rule.window.afterDays) }
}

/** Gives each sampling since the clock started to the first open round it has reached. */
function assign(work: {
  open: readonly PlannedRound[]
  rule: FollowUpRule
  countsFrom: IsoDate
  samplings: readonly SamplingSoFar[]
  notCounted: (SamplingSoFar & { reason: string })[]
}): AssignedRound[] {
  const rounds: AssignedRound[] = work.open.map((round, index) => ({ ...round, number: index + 1 }))
  let next = 0
  let last: IsoDate | undefined
  for (const sampling of work.samplings) {
    const round = rounds[next]
    const spaced = last === undefined || sampling.collectedOn >= addDays(last, work.rule.minGapDays)
    const reason = reasonNotCounted({ sampling, round, countsFrom: work.countsFrom, spaced })
    if (reason !== undefined || round === undefined) {
      work.notCounted.push({ ...sampling, reason: reason ?? 'every round is already done' })
      continue
    }
    rounds[next] = { ...round, collectedOn: sampling.collectedOn, outcome: sampling.outcome }
    last = sampling.collectedOn
    next += 1
  }
  return pushedBack(rounds, { last, minGapDays: work.rule.minGapDays })
}

/** The next open round waits for the gap after a late one. */
function pushedBack(
  rounds: readonly AssignedRound[],
  gap: { last: IsoDate | undefined; minGapDays: number },
): AssignedRound[] {
  let floor = gap.last === undefined ? undefined : addDays(gap.last, gap.minGapDays)
  return rounds.map((round) => {
    if (round.collectedOn !== undefined || floor === undefined) return round
    const moved = {
      ...round,
      earliestOn: laterOf(round.earliestOn, floor),
      dueOn: laterOf(round.dueOn, floor),
      latestOn: laterOf(round.latestOn, floor),
    }
    floor = addDays(moved.earliestOn, gap.minGapDays)
    return moved
  })
}

function reasonNotCounted(check: {
  sampling: SamplingSoFar
  round: AssignedRound | undefined
  countsFrom: IsoDate
  spaced: boolean
}): string | undefined {
  const { sampling, round, countsFrom } = check
  if (sampling.outcome === 'positive') return 'positive: it counts for no round'
  if (sampling.collectedOn <= countsFrom) return `not after ${countsFrom}, the day the clock started`
  if (sampling.outcome === 'not interpretable') return 'not interpretable: the round has to be sampled again'
  if (round === undefined) return 'every round is already done'
  if (sampling.collectedOn < round.earliestOn)
    return `too early for round ${round.number}, which opens on ${round.earliestOn}`
  return check.spaced ? undefined : 'too soon after the sampling before it'
}

function withState(round: AssignedRound, today: IsoDate | undefined): FollowUpRound {
  const { outcome, ...rest } = round
  if (outcome === 'negative') return { ...rest, state: 'negative' }
  if (outcome === 'pending') return { ...rest, state: 'sampled' }
  if (today === undefined || today < round.earliestOn) return { ...rest, state: 'waiting' }
  return { ...rest, state: today > round.latestOn ? 'late' : 'due' }
}

function stateOf(rounds: readonly FollowUpRound[], restarted: boolean): FollowUpSchedule['state'] {
  if (rounds.length > 0 && rounds.every(({ state }) => state === 'negative')) return 'met'
  if (rounds.some(({ state }) => state === 'late')) return 'late'
  if (rounds.some(({ state }) => state === 'due')) return 'due'
  const begun = rounds.some(({ collectedOn }) => collectedOn !== undefined)
  return restarted && !begun ? 'restarted' : 'waiting'
}

function closingOf(rounds: readonly FollowUpRound[], countsFrom: IsoDate): FollowUpSchedule['closing'] {
  if (rounds.length === 0)
    return {
      met: false,
      earliestOn: countsFrom,
      reason: 'no round falls within the phases of the rule: nothing can show control',
    }
  const left = rounds.filter(({ state }) => state !== 'negative')
  const last = rounds.at(-1)
  const earliestOn = last?.collectedOn ?? last?.earliestOn ?? countsFrom
  if (left.length === 0) return { met: true, earliestOn, reason: `all ${rounds.length} rounds were negative` }
  const awaited = left.filter(({ state }) => state === 'sampled').length
  const words = awaited === 0 ? '' : `, ${awaited} of them sampled and awaiting the laboratory`
  return { met: false, earliestOn, reason: `${left.length} of ${rounds.length} rounds are still needed${words}` }
}
