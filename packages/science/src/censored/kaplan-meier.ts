export interface Step {
  value: number
  /** Share of readings at this value, 0 to 1. */
  mass: number
}

export interface KaplanMeier {
  /** Values from the smallest up. */
  steps: Step[]
  /** Share that lies below the smallest value, put at the smallest limit; 0 where nothing is left. */
  restrictedMass: number
}

/**
 * The distribution of readings of which some are only known to be below a limit, without a shape assumed (Kaplan and Meier, turned
 * round so that "below" becomes "after").
 *
 * From the largest value down, the share below x falls by 1 − (readings at x) / (readings and limits at or below x).
 *
 * Special cases: what remains below the smallest value is put at the smallest limit: the mean is then the restricted one.
 *
 * @param readings values, and limits of those below one
 * @source kaplan-meier-1958
 * @source helsel-2012
 * @example
 * kaplanMeier({ values: [2, 4], limits: [3] }).steps[0].mass // => 0.6666666666666667
 */
export function kaplanMeier({ values, limits }: { values: readonly number[]; limits: readonly number[] }): KaplanMeier {
  const all = [...values, ...limits].toSorted((a, b) => a - b)
  const distinct = [...new Set(values)].toSorted((a, b) => b - a)
  const counts = new Map<number, number>()
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1)
  const steps: Step[] = []
  let below = 1
  let atRisk = all.length
  for (const value of distinct) {
    while (atRisk > 0 && (all[atRisk - 1] ?? 0) > value) atRisk -= 1
    const mass = (below * (counts.get(value) ?? 0)) / atRisk
    steps.push({ value, mass })
    below = atRisk === counts.get(value) ? 0 : below - mass
  }
  if (below > 0) steps.push({ value: all[0] ?? 0, mass: below })
  return { steps: steps.toReversed(), restrictedMass: below }
}
