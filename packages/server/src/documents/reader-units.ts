import {
  type DisplayUnits,
  UNIT_CHOICES,
  UNIT_SYSTEMS,
  displayUnitsFrom,
  unitsOf,
} from '@rillmark/casebook/units/display-units.ts'
import * as z from 'zod'

/** What an address may ask of a paper's units: a system, and single ones besides it. */
export const unitsQuery = z.strictObject({
  units: z.enum(UNIT_SYSTEMS).optional(),
  temperature: z.enum(UNIT_CHOICES.temperature).optional(),
  volume: z.enum(UNIT_CHOICES.volume).optional(),
  bore: z.enum(UNIT_CHOICES.bore).optional(),
  length: z.enum(UNIT_CHOICES.length).optional(),
  mass: z.enum(UNIT_CHOICES.mass).optional(),
  count: z.enum(UNIT_CHOICES.count).optional(),
})

/** The units of the reader; those of the record unless others are asked for. */
export function unitsAsked(query: z.infer<typeof unitsQuery>): DisplayUnits {
  const { units = 'metric', temperature, volume, bore, length, mass, count } = query
  const single = { temperature, volume, bore, length, mass, count }
  const asked = Object.entries(single).filter(([, unit]) => unit !== undefined)
  return displayUnitsFrom({ ...unitsOf(units), ...Object.fromEntries(asked) })
}
