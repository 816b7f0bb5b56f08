import type { IncubationDistribution } from './incubation-model.ts'
import type { Stretch } from './log-chance.ts'

/** One case on the scale of days: when it fell ill, and where it could have been exposed at all. */
export interface OnsetCase {
  onset: Stretch
  /** Nothing where it could have been exposed at any time. */
  present: readonly Stretch[]
}

export interface Source {
  /** How long it works after its start; 0 for one moment. */
  durationDays: number
  /** It works within these only; infinite where open. */
  between: Stretch
}

/** Shorter than this (days) a stretch is no time at all. */
const NO_TIME = 1e-9

/**
 * The stretches of time in which the source can have started so that it explains every case, and the first case that leaves none.
 *
 * A case was exposed while present, at least the shortest and at most the longest incubation before its onset; the source starts at most
 * its duration before that.
 *
 * @param distribution of the incubation period
 * @param given the cases and the source
 * @source cdc-point-source
 */
export function possibleTimes(
  distribution: Pick<IncubationDistribution, 'shortestDays' | 'longestDays'>,
  { cases, source }: { cases: readonly OnsetCase[]; source: Source },
): { stretches: Stretch[]; impossibleCase: number | undefined } {
  let stretches: Stretch[] = [{ from: source.between.from, to: source.between.to - source.durationDays }].filter(isSome)
  for (const [index, one] of cases.entries()) {
    stretches = common(stretches, startsFor(exposuresOf(distribution, one), source.durationDays))
    if (stretches.length === 0) return { stretches, impossibleCase: index }
  }
  return { stretches, impossibleCase: undefined }
}

function exposuresOf(
  { shortestDays, longestDays }: Pick<IncubationDistribution, 'shortestDays' | 'longestDays'>,
  { onset, present }: OnsetCase,
): Stretch[] {
  const reach = [{ from: onset.from - longestDays, to: onset.to - shortestDays }]
  return present.length === 0 ? reach : common(joined(present), reach)
}

function startsFor(exposures: readonly Stretch[], durationDays: number): Stretch[] {
  return joined(exposures.map(({ from, to }) => ({ from: from - durationDays, to })))
}

const isSome = ({ from, to }: Stretch): boolean => to - from > NO_TIME

/**
 * Stretches in order, those that touch as one.
 *
 * @param stretches in any order
 * @source none: it computes nothing of the trade
 * @example
 * joined([{ from: 2, to: 3 }, { from: 0, to: 2 }]).length // => 1
 */
export function joined(stretches: readonly Stretch[]): Stretch[] {
  const result: Stretch[] = []
  for (const { from, to } of [...stretches].sort((a, b) => a.from - b.from)) {
    const last = result.at(-1)
    if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to)
    else result.push({ from, to })
  }
  return result
}

/**
 * What two lists of stretches, each in order, have in common.
 *
 * @param one stretches in order, apart
 * @param other stretches in order, apart
 * @source none: it computes nothing of the trade
 * @example
 * common([{ from: 0, to: 2 }], [{ from: 1, to: 5 }])[0].to // => 2
 */
export function common(one: readonly Stretch[], other: readonly Stretch[]): Stretch[] {
  return one.flatMap((a) =>
    other.map((b) => ({ from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) })).filter(isSome),
  )
}
