import type { Portion } from './turnbull.ts'

/** Figures of a distribution, as far as defined. */
export interface Figures {
  mean?: number | undefined
  sd?: number | undefined
  geometricMean?: number | undefined
  geometricSd?: number | undefined
  median?: number | undefined
  quantiles: { p: number; value?: number | undefined }[]
}

/**
 * The figures of plain values: standard deviations with n − 1, quantiles by linear interpolation.
 *
 * @param sorted from the smallest up, above 0
 * @param quantiles wanted, 0 to 1
 * @source helsel-2012
 * @example
 * figuresOfValues([1, 3], [0.5]).mean // => 2
 */
export function figuresOfValues(sorted: readonly number[], quantiles: readonly number[]): Figures {
  const logs = sorted.map(Math.log)
  const at = (p: number) => {
    const place = p * (sorted.length - 1)
    const below = Math.floor(place)
    const [low = 0, high = low] = [sorted[below], sorted[below + 1]]
    return low + (place - below) * (high - low)
  }
  const spread = (values: readonly number[]) => {
    const mean = average(values)
    if (values.length < 2) return undefined
    return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1))
  }
  const sdLog = spread(logs)
  return {
    mean: average(sorted),
    sd: spread(sorted),
    geometricMean: Math.exp(average(logs)),
    geometricSd: sdLog === undefined ? undefined : Math.exp(sdLog),
    median: at(0.5),
    quantiles: quantiles.map((p) => ({ p, value: at(p) })),
  }
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}

/** A quantile, or between what it lies where it falls into a share whose place no reading tells. */
export interface PlacedQuantile {
  p: number
  value?: number | undefined
  within?: Bounds | undefined
}

/** `upper` is left out where there is none. */
export interface Bounds {
  lower: number
  upper?: number | undefined
}

export interface PlacedFigures extends Figures {
  quantiles: PlacedQuantile[]
  medianWithin?: Bounds | undefined
  /** The mean with every such share at its lower end, and at its upper. */
  meanWithin: Bounds
  /** Whether a share lies below the smallest limit or above the largest, and was put at that limit; and how large it is. */
  restricted: boolean
  restrictedMass: number
  /** Share known to lie between two numbers only, put in the middle. */
  middledMass: number
}

/**
 * The figures of a distribution of which some shares are only known to lie between limits. For mean and spread a share from 0 up is put at
 * its upper end and one without an upper end at its lower (restricted), any other in its middle. A quantile is the smallest value
 * with at least that share at or below it; in a share without a place it has none, and the limits around it are given.
 *
 * @param portions from the smallest up
 * @param quantiles wanted, 0 to 1
 * @source kaplan-meier-1958
 * @source turnbull-1976
 * @example
 * figuresOfPortions([{ low: 1, high: 1, mass: 0.5 }, { low: 2, high: 4, mass: 0.5 }], []).mean // => 2
 */
export function figuresOfPortions(portions: readonly Portion[], quantiles: readonly number[]): PlacedFigures {
  const over = (of: (portion: Portion) => number) => portions.reduce((sum, each) => sum + each.mass * of(each), 0)
  const share = (is: (portion: Portion) => boolean) => over((each) => Number(is(each)))
  const arithmetic = over(placeOf)
  const logarithmic = over((each) => Math.log(placeOf(each)))
  const most = over(({ high }) => high)
  const at = (p: number) => quantileOf(portions, p)
  return {
    mean: arithmetic,
    sd: Math.sqrt(over((each) => (placeOf(each) - arithmetic) ** 2)),
    geometricMean: Math.exp(logarithmic),
    geometricSd: Math.exp(Math.sqrt(over((each) => (Math.log(placeOf(each)) - logarithmic) ** 2))),
    median: at(0.5).value,
    medianWithin: at(0.5).within,
    quantiles: quantiles.map(at),
    meanWithin: { lower: over(({ low }) => low), upper: Number.isFinite(most) ? most : undefined },
    restricted: portions.some(isRestricted),
    restrictedMass: share(isRestricted),
    middledMass: share((each) => each.low !== each.high && !isRestricted(each)),
  }
}

function isRestricted({ low, high }: Portion): boolean {
  return low !== high && (low === 0 || high === Number.POSITIVE_INFINITY)
}

function placeOf({ low, high }: Portion): number {
  if (low === 0) return high
  return high === Number.POSITIVE_INFINITY || low === high ? low : (low + high) / 2
}

/** Sums of shares differ from their wanted total by rounding, and by where a search for them stopped. */
const ROUNDING = 1e-9

function quantileOf(portions: readonly Portion[], p: number): PlacedQuantile {
  let share = 0
  for (const { low, high, mass } of portions) {
    share += mass
    if (share < p - ROUNDING) continue
    if (low === high) return { p, value: low }
    return { p, within: { lower: low, upper: high === Number.POSITIVE_INFINITY ? undefined : high } }
  }
  const last = portions.at(-1)
  return { p, value: last?.high === last?.low ? last?.low : undefined }
}
