import * as z from 'zod'
import { type DisplayUnits, METRIC_UNITS } from './display-units.ts'
import { show, showRange } from './display.ts'

/**
 * How a figure is known: `seen` in a published document, `computed` from other figures, or from `memory` and to be checked before use.
 * A fact of the trade without a source says so in its source.
 */
const knownSchema = z.enum(['seen', 'computed', 'memory'])
export type Known = z.infer<typeof knownSchema>

const sourceTextSchema = z.string().trim().min(1).max(400)

/** Where a statement comes from and how it is known. */
export const sourcedFields = {
  source: sourceTextSchema,
  known: knownSchema,
  note: z.string().trim().min(1).max(400).optional(),
}

const rangeSchema = z
  .strictObject({ min: z.number(), max: z.number() })
  .refine(({ min, max }) => min <= max, { path: ['max'], message: 'a maximum of at least the minimum' })

/** A number (or range) of the trade with its unit and source. */
export const figureSchema = z.strictObject({
  value: z.union([z.number(), rangeSchema]),
  unit: z.string().trim().min(1).max(40),
  ...sourcedFields,
})

/** A range such as 3 to 5 mL, with its unit and source. */
export const rangeFigureSchema = z.strictObject({
  value: rangeSchema,
  unit: z.string().trim().min(1).max(40),
  ...sourcedFields,
})

export type Figure = z.infer<typeof figureSchema>

/** The figure in words, as on a run sheet: "3–5 mL"; in the reader's units. */
export function figureText(figure: Pick<Figure, 'value' | 'unit'>, units: DisplayUnits = METRIC_UNITS): string {
  const { value, unit } = figure
  if (typeof value === 'number') return show(value, { unit, units }).words
  return showRange([value.min, value.max], { unit, units }).replace(' to ', '–')
}
