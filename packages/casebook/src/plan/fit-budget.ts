import { componentName } from '../building/labels.ts'
import type { Component } from '../building/water-system.ts'
import type { Budget, PlannedSample, Reason, Stop } from './plan-file.ts'
import { because, type PlanContext, type Wish } from './plan-context.ts'
import { PLANNING, rankOf } from './planning.ts'
import { compareComponents } from './positions.ts'
import { isLabelled, minutesAt, samplesAt } from './samples-at.ts'
import { type TeamWalk, walk } from './walking-order.ts'
import { given } from '../entry/given.ts'

/** A point that may be in the plan, all its reasons together. */
export interface Candidate {
  readonly component: Component
  readonly reasons: readonly Reason[]
  readonly rank: number
  readonly samples: readonly PlannedSample[]
}

/** One candidate a component, in the order they are kept: by rank, then as asked, never by budget. */
export function candidatesFrom(context: PlanContext, wishes: readonly Wish[]): Candidate[] {
  const merged = new Map<string, { component: Component; reasons: Reason[]; rank: number; step: number }>()
  for (const { component, reason, step = 0 } of wishes) {
    const rank = rankOf(reason.obligation)
    const known = merged.get(component.id)
    if (known === undefined) merged.set(component.id, { component, reasons: [reason], rank, step })
    else {
      if (!known.reasons.some(({ text }) => text === reason.text)) known.reasons.push(reason)
      if (rank < known.rank || (rank === known.rank && step < known.step)) Object.assign(known, { rank, step })
    }
  }
  return [...merged.values()]
    .sort((a, b) => a.rank - b.rank || a.step - b.step || compareComponents(a.component, b.component))
    .map(({ component, reasons, rank }) => {
      const sorted = reasons.toSorted((a, b) => rankOf(a.obligation) - rankOf(b.obligation))
      return { component, rank, reasons: sorted, samples: samplesAt(context, { component, reasons: sorted }) }
    })
}

export const labelledAt = ({ samples }: { samples: readonly PlannedSample[] }): number =>
  samples.filter((one) => isLabelled(one)).length

/** Blanks and duplicates that go with so many samples. A budget of a few samples is left to the points. */
function qualityFor(samples: number, budget: Budget): { blanks: number; duplicates: number } {
  const blanks =
    samples === 0 || budget.samples < PLANNING.blankFromSamples
      ? 0
      : Math.max(1, Math.ceil(samples / PLANNING.samplesPerBlank))
  return { blanks, duplicates: Math.round(samples / PLANNING.samplesPerDuplicate) }
}

/** How many of the candidates, taken in order, fit the budget of samples and hours with their blanks and duplicates. */
export function fitting(context: PlanContext, candidates: readonly Candidate[]): number {
  const { budget } = context.input
  let bySamples = 0
  for (let samples = 0; bySamples < candidates.length; bySamples++) {
    const candidate = candidates[bySamples]
    samples += candidate === undefined ? 0 : labelledAt(candidate)
    const { blanks, duplicates } = qualityFor(samples, budget)
    if (samples + blanks + duplicates > budget.samples) break
  }
  if (budget.hours === undefined) return bySamples
  let fits = 0
  let beyond = bySamples + 1
  while (beyond - fits > 1) {
    const middle = Math.floor((fits + beyond) / 2)
    if (inTime(walkOf(context, candidates.slice(0, middle)), budget)) fits = middle
    else beyond = middle
  }
  return fits
}

const inTime = ({ teamMinutes }: TeamWalk, { hours }: Budget): boolean =>
  Math.max(0, ...teamMinutes) <= (hours ?? Infinity) * 60

/** The kept candidates as stops with blanks and duplicates, in walking order, shared out among the teams. */
export function walkOf(context: PlanContext, kept: readonly Candidate[]): TeamWalk {
  const samples = kept.reduce((sum, one) => sum + labelledAt(one), 0)
  const { blanks, duplicates } = qualityFor(samples, context.input.budget)
  const stops = withDuplicates(context, { kept, duplicates })
  return walk({
    system: context.input.system,
    stops,
    blanks: blankStops(context, blanks),
    teams: context.input.budget.teams ?? 1,
  })
}

/** Duplicates go where a litre is taken, to the points that matter most. */
function withDuplicates(
  context: PlanContext,
  { kept, duplicates }: { kept: readonly Candidate[]; duplicates: number },
): Stop[] {
  let left = duplicates
  return kept.map((candidate) => {
    const bulk = candidate.samples.find(
      ({ sampleKind }) =>
        sampleKind.startsWith('bulk') || sampleKind === 'return-line' || sampleKind === 'heater-drain',
    )
    if (left === 0 || bulk === undefined) return stopOf(context, candidate)
    left -= 1
    const { volumeMl, circuit, sampleKind: repeats } = bulk
    const duplicate: PlannedSample = {
      ...given({ volumeMl, circuit }),
      sampleKind: 'duplicate',
      procedure: 'duplicate',
      repeats,
    }
    const at = candidate.samples.indexOf(bulk) + 1
    const samples = [...candidate.samples.slice(0, at), duplicate, ...candidate.samples.slice(at)]
    const reason = because('quality', {
      text: 'Carries a duplicate: how far two samples of the same water differ.',
      evidence: [],
    })
    return stopOf(context, { ...candidate, samples, reasons: [...candidate.reasons, reason] })
  })
}

export function stopOf(context: PlanContext, candidate: Candidate): Stop {
  const { component, reasons, rank, samples } = candidate
  const { floor, riser, zone, room } = component
  const isReturn = reasons.some(({ obligation }) => obligation === 'return')
  const title =
    isReturn && component.label === undefined
      ? `Return${riser === undefined ? '' : `, riser ${riser}`}`
      : componentName(component)
  return {
    id: component.id.slice(0, 60),
    component: component.id,
    title: title.slice(0, 160),
    ...given({ floor, riser, zone, room }),
    samples: [...samples],
    reasons: [...reasons],
    rank,
    minutes: minutesAt(context, samples),
  }
}

function blankStops(context: PlanContext, blanks: number): Stop[] {
  const sample: PlannedSample = { sampleKind: 'field-blank', procedure: 'field-blank' }
  return Array.from({ length: blanks }, (_, index) => ({
    id: `blank-${index + 1}`,
    title: `Field blank ${index + 1}`,
    samples: [sample],
    reasons: [
      because('quality', { text: 'Sterile water opened on site: shows that the handling adds nothing.', evidence: [] }),
    ],
    rank: rankOf('quality'),
    minutes: minutesAt(context, [sample]),
  }))
}
