import * as z from 'zod'
import { field } from '../catalogue/fields.ts'

/** A figure on which published values disagree: the middle of them and both ends. */
export interface Estimate {
  central: number
  lower: number
  upper: number
}

/**
 * Middle and ends of values above 0: the median (of an even number, the geometric mean of the middle two), least and most.
 *
 * @param values at least one, above 0
 * @throws RangeError when there are none
 * @source none: it computes nothing of the trade
 * @example
 * estimateOf([8, 1, 2]).central // => 2
 */
export function estimateOf(values: readonly number[]): Estimate {
  const sorted = values.toSorted((a, b) => a - b)
  const [lower, upper] = [sorted[0], sorted.at(-1)]
  const [left, right] = [sorted[Math.floor((sorted.length - 1) / 2)], sorted[Math.floor(sorted.length / 2)]]
  if (lower === undefined || upper === undefined || left === undefined || right === undefined) {
    throw new RangeError('Cannot take a middle because there are no values: got none')
  }
  return { central: left === right ? left : Math.sqrt(left) * Math.sqrt(right), lower, upper }
}

/**
 * The field of an estimate.
 *
 * @param text what it is, and its unit
 * @source none: it computes nothing of the trade
 */
export const estimateField = (text: { what: string; unit?: string }) =>
  field(
    z.object({
      central: field(z.number(), { ...text, what: `${text.what}: middle of the published values` }),
      lower: field(z.number(), { ...text, what: 'lowest' }),
      upper: field(z.number(), { ...text, what: 'highest' }),
    }),
    text,
  )
