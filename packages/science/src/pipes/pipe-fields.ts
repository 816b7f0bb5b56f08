import * as z from 'zod'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { findPipeSize, pipeSizes, pipeStandards } from './pipe-catalogue.ts'

/** A bore given in millimetres, or by a standard and one of its sizes. */
export interface BoreChoice {
  boreMm?: number | undefined
  standard?: string | undefined
  size?: string | undefined
}

/**
 * The fields by which a pipe's bore and length are given.
 *
 * @source none: it computes nothing of the trade
 */
export const pipeShape = () => ({
  boreMm: field(measure.positive().optional(), { what: 'inside diameter; or give standard and size', unit: 'mm' }),
  standard: field(z.enum(pipeStandards).optional(), { what: 'pipe standard, instead of the bore' }),
  size: field(z.string().optional(), { what: 'size within the standard, such as 1/2 or 22x1' }),
  lengthM: field(measure.amount(), { what: 'length of pipe', unit: 'm' }),
})

/**
 * What is wrong with a choice of bore, each as the field to change and what it should be; none when it is usable.
 *
 * @param choice the fields as given
 * @source none: it computes nothing of the trade
 * @example
 * boreProblems({ boreMm: 20 }).length // => 0
 */
export function boreProblems({ boreMm, standard, size }: BoreChoice): { field: keyof BoreChoice; expected: string }[] {
  if (boreMm !== undefined) {
    const alone = standard === undefined && size === undefined
    return alone ? [] : [{ field: 'boreMm', expected: 'either boreMm or standard and size, not both' }]
  }
  if (standard === undefined && size === undefined)
    return [{ field: 'boreMm', expected: 'boreMm, or standard and size' }]
  const sizes = pipeSizes.filter((row) => row.standard === standard).map((row) => row.size)
  if (standard === undefined || sizes.length === 0) {
    return [{ field: 'standard', expected: `one of ${pipeStandards.join(', ')}` }]
  }
  if (size !== undefined && findPipeSize({ standard, size }) !== undefined) return []
  return [{ field: 'size', expected: `one of ${sizes.join(', ')}` }]
}

/**
 * The rule of a schema that holds `pipeShape`.
 *
 * @source none: it computes nothing of the trade
 */
export function refuseUnknownBore(choice: BoreChoice, context: z.RefinementCtx): void {
  for (const { field, expected } of boreProblems(choice)) context.addIssue(refuse([field], expected))
}

/**
 * The bore of a choice (mm).
 *
 * @param choice a bore, or a standard and size of the catalogue
 * @throws RangeError when it names no bore
 * @source astm-b88
 * @example
 * boreOf({ standard: 'en-1057', size: '15x1' }) // => 13
 */
export function boreOf({ boreMm, standard, size }: BoreChoice): number {
  const bore = boreMm ?? findPipeSize({ standard: standard ?? '', size: size ?? '' })?.boreMm
  if (bore === undefined) {
    throw new RangeError(`Cannot tell a bore because the catalogue lacks the size: got ${standard} ${size}`)
  }
  return bore
}
