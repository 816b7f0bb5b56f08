/**
 * The chance, 0 to 1, that at least one of several independent looks finds what is there.
 * Wanted where a plan looks at a system in more than one way: at its outlets and at its heaters.
 *
 * P = 1 − Π(1 − pᵢ), summed as logarithms, so that many small chances keep their digits.
 *
 * Special cases: 0 where nothing is looked at; 1 where one look cannot miss.
 *
 * @param chances of each look, 0 to 1
 * @throws RangeError when a chance lies outside 0 to 1
 * @source cannon-roe-1982
 * @example
 * detectedByAny([0.5, 0.5]) // => 0.75
 */
export function detectedByAny(chances: readonly number[]): number {
  chances.forEach(requireChance)
  return -Math.expm1(chances.reduce((sum, chance) => sum + Math.log1p(-chance), 0)) || 0
}

export interface WeighedChance {
  chance: number
  /** How likely this is to be the case, against the others; any scale. */
  weight: number
}

/**
 * The chance, 0 to 1, over several ways a building may be colonised, each as likely as its weight says.
 *
 * P = Σ wᵢ·pᵢ / Σ wᵢ.
 *
 * Special cases: nothing where no way has any weight.
 *
 * @param ways chance to detect (0 to 1) and weight (at least 0) of each
 * @throws RangeError when a chance lies outside 0 to 1, or a weight is below 0
 * @source none: the law of total probability
 * @example
 * detectedOnAverage([{ chance: 0.9, weight: 3 }, { chance: 0.5, weight: 1 }]) // => 0.8
 */
export function detectedOnAverage(ways: readonly WeighedChance[]): number | undefined {
  for (const { chance, weight } of ways) {
    requireChance(chance)
    if (!(weight >= 0)) throw new RangeError(`Cannot weigh a chance because weights are at least 0: got ${weight}`)
  }
  const total = ways.reduce((sum, { weight }) => sum + weight, 0)
  return total === 0 ? undefined : ways.reduce((sum, { chance, weight }) => sum + weight * chance, 0) / total
}

function requireChance(chance: number): void {
  if (!(chance >= 0 && chance <= 1))
    throw new RangeError(`Cannot combine chances because each lies within 0 to 1: got ${chance}`)
}
