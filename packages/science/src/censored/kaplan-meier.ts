import type { Portion } from './turnbull.ts'

/**
 * The distribution of readings of which some are only known to be below a limit, without a shape assumed (Kaplan and Meier, turned
 * round so that "below" becomes "after").
 *
 * From the largest value down, the share below x falls by 1 − (readings at x) / (readings and limits at or below x).
 *
 * Special cases: what remains below the smallest value lies somewhere from 0 to the smallest limit.
 *
 * @param readings values, and limits of those below one
 * @source kaplan-meier-1958
 * @source helsel-2012
 * @example
 * kaplanMeier({ values: [2, 4], limits: [3] })[0].mass // => 0.6666666666666667
 */
export function kaplanMeier({ values, limits }: { values: readonly number[]; limits: readonly number[] }): Portion[] {
  const all = [...values, ...limits].toSorted((a, b) => a - b)
  const distinct = [...new Set(values)].toSorted((a, b) => b - a)
  const counts = new Map<number, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  const portions: Portion[] = []
  let below = 1
  let atRisk = all.length
  for (const value of distinct) {
    while (atRisk > 0 && (all[atRisk - 1] ?? 0) > value) atRisk -= 1
    const mass = (below * (counts.get(value) ?? 0)) / atRisk
    portions.push({ low: value, high: value, mass })
    below = atRisk === counts.get(value) ? 0 : below - mass
  }
  if (below > 0) portions.push({ low: 0, high: all[0] ?? 0, mass: below })
  return portions.toReversed()
}
