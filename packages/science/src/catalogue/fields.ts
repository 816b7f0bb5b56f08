import * as z from 'zod'

/** What a field is, and the unit it is in ('' for counts, fractions and words). */
export interface FieldText {
  what: string
  unit?: string
}

/** No quantity of the trade is larger; keeps every result finite. */
export const LARGEST = 1e12
/** The smallest quantity that may divide. */
const SMALLEST = 1e-9
/** Sums over counts stay well under a second. */
const MOST_COUNTED = 1_000_000

/**
 * A schema with its description and unit attached, so forms, help and documents can show them.
 *
 * @param schema the schema, already optional or defaulted where it should be
 * @param text what it is and its unit
 * @source none: it computes nothing of the trade
 * @example
 * field(z.number(), { what: 'bore', unit: 'mm' }).description // => "bore (mm)"
 */
export function field<Schema extends z.ZodType>(schema: Schema, { what, unit = '' }: FieldText): Schema {
  return schema.meta({ description: unit === '' ? what : `${what} (${unit})`, unit })
}

/** The bare schemas of what the trade measures and counts. */
export const measure = {
  /** Zero or more. */
  amount: () => z.number().min(0).max(LARGEST),
  /** More than nothing: it may divide. */
  positive: () => z.number().min(SMALLEST).max(LARGEST),
  count: () => z.int().min(0).max(MOST_COUNTED),
  countFromOne: () => z.int().min(1).max(MOST_COUNTED),
  fraction: () => z.number().min(0).max(1),
  /** A share that isn't nothing. */
  share: () => z.number().min(SMALLEST).max(1),
  /** A confidence level, strictly inside 0 and 1. */
  level: () =>
    z
      .number()
      .min(SMALLEST)
      .max(1 - SMALLEST),
}

/**
 * The confidence level of two-sided intervals, 0.95 where not given.
 *
 * @source none: it computes nothing of the trade
 */
export const levelField = () =>
  field(measure.level().default(0.95), { what: 'confidence level of the interval, 0 to 1' })

/**
 * Two limits of the same quantity.
 *
 * @source none: it computes nothing of the trade
 */
export const intervalField = (text: FieldText) => field(z.object({ lower: z.number(), upper: z.number() }), text)

/**
 * A message of a rule between fields, put at the field a person should change.
 *
 * @source none: it computes nothing of the trade
 */
export function refuse(path: (string | number)[], wanted: string | { expected: string; received: string }) {
  const { expected, received } = typeof wanted === 'string' ? { expected: wanted, received: undefined } : wanted
  return { code: 'custom' as const, path, message: expected, params: { received }, input: undefined }
}
