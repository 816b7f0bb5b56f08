import type { IncubationDistribution } from './incubation-model.ts'

/** A stretch of time in days; one moment where both ends are the same. */
export interface Stretch {
  from: number
  to: number
}

/** Narrower than this share of what lies beyond it, a stretch is taken as its middle's density. */
const NARROW = 1e-6

/**
 * The natural logarithm of the chance to fall ill within a stretch of days after exposure; of the density where the stretch is a moment.
 * Differences are taken in the tail that keeps its digits.
 *
 * Special cases: −∞ where the whole stretch lies before the exposure.
 *
 * @param distribution of the incubation period
 * @param after days from exposure to the ends of the stretch
 * @source egan-2011
 */
export function logChance(distribution: IncubationDistribution, after: Stretch): number {
  const [a, b] = [Math.max(0, after.from), after.to]
  if (b <= 0) return Number.NEGATIVE_INFINITY
  if (after.from === b) return distribution.logDensity(b)
  const below = distribution.logLower(b)
  if (a === 0) return below
  const above = distribution.logUpper(a)
  const difference =
    above < below ? logDifference(above, distribution.logUpper(b)) : logDifference(below, distribution.logLower(a))
  return difference ?? distribution.logDensity((a + b) / 2) + Math.log(b - a)
}

/** ln(e^larger − e^smaller), nothing where they are too near each other to tell. */
function logDifference(larger: number, smaller: number): number | undefined {
  if (larger === Number.NEGATIVE_INFINITY) return larger
  const share = -Math.expm1(smaller - larger)
  return share < NARROW ? undefined : larger + Math.log(share)
}

export interface Exposed {
  /** Days of exposure, each as likely as the next; one moment stands for itself. */
  during: readonly Stretch[]
  onset: Stretch
}

/**
 * The natural logarithm of the mean chance of an onset over the time a case was exposed, every moment of it alike.
 *
 * mean = Σ ∫∫ f(y − u) du dy / Σ length, over exposures u and onsets y: one integral is a difference of F, the other, over the narrower of
 * the two, is by Gauss and Legendre's rule between the places where the difference isn't smooth.
 *
 * Special cases: −∞ where nothing of it lies before the onset.
 *
 * @param distribution of the incubation period
 * @param exposed when, and the onset (days on one scale)
 * @source egan-2011
 */
export function logMeanChance(distribution: IncubationDistribution, { during, onset }: Exposed): number {
  const moment = during[0]
  if (moment === undefined) return Number.NEGATIVE_INFINITY
  if (moment.from === moment.to)
    return logChance(distribution, { from: onset.from - moment.from, to: onset.to - moment.from })
  const length = during.reduce((sum, { from, to }) => sum + to - from, 0)
  return logSum(during.map((stretch) => logJointChance(distribution, { during: stretch, onset }))) - Math.log(length)
}

/** ln ∫∫ f(y − u) du dy; with a moment of onset ln ∫ f(y − u) du. */
function logJointChance(
  distribution: IncubationDistribution,
  { during, onset }: { during: Stretch; onset: Stretch },
): number {
  const byOnset = (y: number): number => logChance(distribution, { from: y - during.to, to: y - during.from })
  if (onset.from === onset.to) return byOnset(onset.from)
  const isOnsetNarrower = onset.to - onset.from < during.to - during.from
  const byExposure = (u: number): number => logChance(distribution, { from: onset.from - u, to: onset.to - u })
  const at = isOnsetNarrower ? byOnset : byExposure
  const parts = isOnsetNarrower
    ? onsetPanels(distribution, { during, onset })
    : exposurePanels(distribution, { during, onset })
  return logSum(
    parts.flatMap(({ from, to }) =>
      NODES.map(
        ([node, weight]) => at((from + to) / 2 + (node * (to - from)) / 2) + Math.log((weight * (to - from)) / 2),
      ),
    ),
  )
}

/**
 * ln Σ e^log without overflow or underflow.
 *
 * Special cases: −∞ for none.
 *
 * @param logs natural logarithms, −∞ allowed
 * @source none: arithmetic
 * @example
 * logSum([-2000, -2000]) // => -1999.3068528194400547
 */
export function logSum(logs: readonly number[]): number {
  const top = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
  if (top === Number.NEGATIVE_INFINITY) return top
  return top + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - top), 0))
}

/** Widths grow with the distance from where the chance begins, as it flattens. */
const FIRST_PANEL_DAYS = 2
const GROWTH = 1.6

interface Pair {
  during: Stretch
  onset: Stretch
}

function exposurePanels(
  { shortestDays, longestDays, knots }: IncubationDistribution,
  { during, onset }: Pair,
): Stretch[] {
  const whole = {
    from: Math.max(during.from, onset.from - longestDays),
    to: Math.min(during.to, onset.to - shortestDays),
  }
  const edges = knots.flatMap((knot) => [onset.from - knot, onset.to - knot])
  for (let width = FIRST_PANEL_DAYS, at = onset.to - width; at > whole.from; width *= GROWTH, at -= width)
    edges.push(at)
  return cutAt(whole, edges)
}

function onsetPanels({ shortestDays, longestDays, knots }: IncubationDistribution, { during, onset }: Pair): Stretch[] {
  const whole = {
    from: Math.max(onset.from, during.from + shortestDays),
    to: Math.min(onset.to, during.to + longestDays),
  }
  const edges = knots.flatMap((knot) => [during.from + knot, during.to + knot])
  for (let width = FIRST_PANEL_DAYS, at = during.from + width; at < whole.to; width *= GROWTH, at += width)
    edges.push(at)
  return cutAt(whole, edges)
}

function cutAt({ from, to }: Stretch, places: readonly number[]): Stretch[] {
  if (!(to > from)) return []
  const inside = places.filter((at) => at > from && at < to).sort((a, b) => a - b)
  const edges = [from, ...inside, to]
  return edges.slice(1).map((end, index) => ({ from: edges[index] ?? from, to: end }))
}

/** Nodes and weights of the ten-point rule on −1 to 1. */
const HALF_RULE = [
  [0.148_874_338_981_631_2, 0.295_524_224_714_752_9],
  [0.433_395_394_129_247_2, 0.269_266_719_309_996_4],
  [0.679_409_568_299_024_4, 0.219_086_362_515_982_04],
  [0.865_063_366_688_984_5, 0.149_451_349_150_580_6],
  [0.973_906_528_517_171_7, 0.066_671_344_308_688_14],
] as const
const NODES = HALF_RULE.flatMap(([node, weight]) => [[-node, weight] as const, [node, weight] as const])
