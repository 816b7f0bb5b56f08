import type { KaplanMeier, Step } from './kaplan-meier.ts'

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

/**
 * The figures of a distribution in steps. A quantile is the smallest value with at least that share at or below it, and none where it
 * falls into the share that lies below the smallest value.
 *
 * @param distribution steps from the smallest up
 * @param quantiles wanted, 0 to 1
 * @source kaplan-meier-1958
 * @example
 * figuresOfSteps({ steps: [{ value: 1, mass: 0.5 }, { value: 3, mass: 0.5 }], restrictedMass: 0 }, []).mean // => 2
 */
export function figuresOfSteps({ steps, restrictedMass }: KaplanMeier, quantiles: readonly number[]): Figures {
  const mean = (of: (value: number) => number) => steps.reduce((sum, { value, mass }) => sum + mass * of(value), 0)
  const [arithmetic, logarithmic] = [mean((value) => value), mean(Math.log)]
  const at = (p: number) => quantileOfSteps({ steps, restrictedMass }, p)
  return {
    mean: arithmetic,
    sd: Math.sqrt(mean((value) => (value - arithmetic) ** 2)),
    geometricMean: Math.exp(logarithmic),
    geometricSd: Math.exp(Math.sqrt(mean((value) => (Math.log(value) - logarithmic) ** 2))),
    median: at(0.5),
    quantiles: quantiles.map((p) => ({ p, value: at(p) })),
  }
}

/** Sums of shares differ from their wanted total by rounding. */
const ROUNDING = 1e-12

function quantileOfSteps({ steps, restrictedMass }: { steps: readonly Step[]; restrictedMass: number }, p: number) {
  if (p <= restrictedMass + ROUNDING && restrictedMass > 0) return undefined
  let share = 0
  for (const { value, mass } of steps) {
    share += mass
    if (share >= p - ROUNDING) return value
  }
  return steps.at(-1)?.value
}
