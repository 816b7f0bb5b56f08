import * as z from 'zod'
import { CIRCUITS, type Circuit } from '../building/water-system.ts'

/** The name and version of the file format of readings to fit to. */
export const FIELD_READINGS_FORMAT = 'rillmark/field-readings@1'

/** One measurement at a known place, as a fit takes it. */
export interface FieldReading {
  /** Names it in the result: the entry of the record and, of a curve, its seconds; or the line of a file. */
  id: string
  component: string
  circuit: Circuit
  quantity: 'temperature' | 'residual'
  /** °C or mg/L as Cl2. */
  value: number
  /** The instrument could tell no more than that it lay beyond the value. */
  beyond?: 'below' | 'above' | undefined
  /** Since the tap was opened; left out, it is taken as read when water is to have reached its limit. */
  seconds?: number | undefined
  /** Minutes after midnight by the clock on the wall. */
  clockMinute?: number | undefined
  /** Standard deviation of the instrument and its handling, in the unit of the value. */
  sd: number
}

const beyond = (value: z.ZodType<number>) =>
  z.union([value, z.strictObject({ below: value }), z.strictObject({ above: value })])
const temperature = z.number().min(-5).max(110)
const residual = z.number().min(0).max(100)

const rowSchema = z
  .strictObject({
    component: z.string().min(1),
    circuit: z.enum(CIRCUITS),
    temperatureC: beyond(temperature).optional(),
    residualMgPerL: beyond(residual).optional(),
    seconds: z.number().min(0).max(7200).optional(),
    at: z
      .string()
      .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day such as 07:30')
      .optional(),
    sd: z.number().positive().optional(),
  })
  .refine((row) => (row.temperatureC === undefined) !== (row.residualMgPerL === undefined), {
    message: 'either temperatureC or residualMgPerL',
  })
export type FieldReadingRow = z.infer<typeof rowSchema>

/** A file of readings. */
export const fieldReadingsSchema = z.strictObject({
  format: z.literal(FIELD_READINGS_FORMAT),
  readings: z.array(rowSchema).min(1).max(5000),
})
export type FieldReadingsFile = z.infer<typeof fieldReadingsSchema>
