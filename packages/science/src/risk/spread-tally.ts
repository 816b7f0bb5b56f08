import * as z from 'zod'
import { field } from '../catalogue/fields.ts'
import { LogTally } from './log-tally.ts'

/** What many draws of one quantity come to. */
export interface Spread {
  median: number
  p5: number
  p95: number
  mean: number
  /** How far the median may be off because draws are not endless. */
  medianStandardError: number
}

const SHARES = { p5: 0.05, median: 0.5, p95: 0.95 } as const

/**
 * Takes in draws of a positive quantity x by its logarithm, and tells the spread of x, or of the risk 1 − exp(−x): risk rises with x, so
 * its quantiles are those of x carried over and lose no digits near 0 or 1.
 *
 * @source order-statistic-error
 * @example
 * new SpreadTally('itself').spread(1).median // => 0
 */
export class SpreadTally {
  readonly #tally = new LogTally()
  readonly #shown: (x: number) => number
  #sum = 0

  constructor(of: 'itself' | 'risk') {
    this.#shown = of === 'risk' ? (x) => -Math.expm1(-x) : (x) => x
  }

  /** Takes in a value by its natural logarithm, −Infinity for 0. */
  add(logarithm: number): void {
    this.#tally.add(logarithm)
    this.#sum += this.#shown(Math.exp(logarithm))
  }

  /** The spread, with the error of the median as of so many independent draws: half the distance between the ranks a standard error apart. */
  spread(independent: number): Spread {
    const step = Math.min(0.5, 0.5 / Math.sqrt(independent))
    const shares = [SHARES.p5, SHARES.median - step, SHARES.median, SHARES.median + step, SHARES.p95]
    const rising = shares.toSorted((a, b) => a - b)
    const found = this.#tally.quantiles(rising).map(this.#shown)
    const at = (share: number) => found[rising.indexOf(share)] ?? 0
    return {
      median: at(SHARES.median),
      p5: at(SHARES.p5),
      p95: at(SHARES.p95),
      mean: this.#tally.count === 0 ? 0 : this.#sum / this.#tally.count,
      medianStandardError: (at(SHARES.median + step) - at(SHARES.median - step)) / 2,
    }
  }
}

/**
 * The field of a spread.
 *
 * @param text what it is, and its unit
 * @source none: it computes nothing of the trade
 */
export const spreadField = (text: { what: string; unit?: string }) =>
  field(
    z.object({
      median: field(z.number(), { ...text, what: 'median' }),
      p5: field(z.number(), { ...text, what: '5th percentile' }),
      p95: field(z.number(), { ...text, what: '95th percentile' }),
      mean: field(z.number(), { ...text, what: 'mean' }),
      medianStandardError: field(z.number(), { ...text, what: 'standard error of the median from simulating' }),
    }),
    text,
  )
