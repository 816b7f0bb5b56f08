import type { IncubationDistribution } from './incubation-model.ts'
import { logMeanChance, type Stretch } from './log-chance.ts'
import { common, joined, type OnsetCase, type Source } from './possible-times.ts'

/**
 * The log-likelihood of the time a common source started, given when the cases fell ill.
 *
 * ℓ(t) = Σ ln mean over the case's exposure of [F(to − u) − F(from − u)]; a case is exposed while the source works and it is present.
 * Equal cases are reckoned once.
 *
 * Special cases: −∞ outside the stretches in which the source can have started.
 *
 * @param distribution of the incubation period
 * @param given the cases, the source, and the stretches in which it can have started
 * @source egan-2011
 */
export function sourceLikelihood(
  distribution: IncubationDistribution,
  given: { cases: readonly OnsetCase[]; source: Source; stretches: readonly Stretch[] },
): (t: number) => number {
  const { source, stretches } = given
  const grouped = groupCases(given.cases)
  return (t) => {
    if (!stretches.some(({ from, to }) => t >= from && t <= to)) return Number.NEGATIVE_INFINITY
    const works = { from: t, to: t + source.durationDays }
    let sum = 0
    for (const { onset, present, times } of grouped) {
      const during = present.length === 0 || source.durationDays === 0 ? [works] : common(present, [works])
      const log = logMeanChance(distribution, { during, onset })
      if (log === Number.NEGATIVE_INFINITY) return log
      sum += times * log
    }
    return sum
  }
}

/** Equal cases as one, with how often it occurs. */
function groupCases(cases: readonly OnsetCase[]): (OnsetCase & { times: number })[] {
  const groups = new Map<string, OnsetCase & { times: number }>()
  for (const { onset, present } of cases) {
    const key = [onset, ...present].map(({ from, to }) => `${from} ${to}`).join(' ')
    const group = groups.get(key)
    if (group === undefined) groups.set(key, { onset, present: joined(present), times: 1 })
    else group.times += 1
  }
  return [...groups.values()].sort((a, b) => a.onset.from - b.onset.from || a.onset.to - b.onset.to)
}
