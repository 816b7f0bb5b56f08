import { placeWhereItEnds } from '../distributions/halving.ts'
import type { IncubationDistribution } from './incubation-model.ts'
import { logMeanChance } from './log-chance.ts'

/** Steps over the chance of the earliest onset, and how far into the tails it is followed. */
const STEPS = 400
const TAIL = 1e-10
/** What is smaller can't be told from the rounding of the sum. */
const LEAST_TOLD = 1e-8

/**
 * The chance that the onsets of so many cases of one source lie at least so far apart, 0 to 1. Small: more than one source, or one that
 * worked longer. It needs no time of exposure.
 *
 * P(range ≥ r) = 1 − n ∫ [H(x + r) − H(x)]ⁿ⁻¹ dH(x), H the distribution of onset after the start of the source.
 *
 * Special cases: 1 for one case or no distance; 0 for a chance under 1e-8.
 *
 * @param distribution of the incubation period
 * @param given number of cases, least distance between first and last onset (days), how long the source works
 * @source none: the distribution of the range of a sample, from that of one onset
 */
export function chanceOfSpread(
  distribution: IncubationDistribution,
  { cases, apartDays, durationDays }: { cases: number; apartDays: number; durationDays: number },
): number {
  if (cases < 2 || apartDays <= 0) return 1
  const share = shareBy(distribution, durationDays)
  const end = placeOf(share, 1 - TAIL)
  const start = placeOf(share, TAIL / cases)
  // Steps of equal ratio: with many cases the first onset lies close to the start of the distribution.
  const place = (i: number): number => (start > 0 ? start * (end / start) ** (i / STEPS) : (end * i) / STEPS)
  const within = (x: number): number => Math.max(0, share(x + apartDays) - share(x)) ** (cases - 1)
  let narrower = 0
  for (let i = 0; i < STEPS; i++) {
    const [a, b] = [place(i), place(i + 1)]
    const [first, last] = [share(a), share(b)]
    const middle = share((a + b) / 2)
    narrower += stieltjes([within(a), within((a + b) / 2), within(b)], [first, middle, last])
  }
  const chance = 1 - cases * narrower
  return chance < LEAST_TOLD ? 0 : Math.min(1, chance)
}

type Three = readonly [number, number, number]

/** ∫ f dH over one step, f the parabola through three places in H. */
function stieltjes([f0, f1, f2]: Three, [h0, h1, h2]: Three): number {
  const width = h2 - h0
  if (!(width > 0)) return 0
  const m = (h1 - h0) / width
  if (!(m > 0.05 && m < 0.95)) return (width * (f0 + f2)) / 2
  const bend = (f2 - f0 - (f1 - f0) / m) / (1 - m)
  const slope = f2 - f0 - bend
  return width * (f0 + slope / 2 + bend / 3)
}

function shareBy(distribution: IncubationDistribution, durationDays: number): (days: number) => number {
  return (days) =>
    days <= 0
      ? 0
      : Math.exp(
          logMeanChance(distribution, {
            during: [{ from: 0, to: durationDays }],
            onset: { from: Math.min(0, -distribution.shortestDays), to: days },
          }),
        )
}

const FURTHEST_DAYS = 1e6

function placeOf(share: (days: number) => number, wanted: number): number {
  let to = 1
  while (share(to) < wanted && to < FURTHEST_DAYS) to *= 2
  return placeWhereItEnds((days) => share(days) < wanted, { from: 0, to })
}
