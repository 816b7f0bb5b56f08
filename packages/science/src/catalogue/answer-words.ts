/** Fields of answers that hold p values. */
export const P_VALUES: ReadonlySet<string> = new Set(['p', 'midP', 'fisherTwoSided'])

/** Under this a double keeps fewer and fewer digits, and then none: 0 is not what was found. */
const LEAST_TOLD = 1e-300

/**
 * An answer for people to read: a p value too small for a number says so in place of 0. Data keep the number.
 *
 * @param answer a result, or a part of it
 * @source none: it words what was computed
 * @example
 * withSmallestPInWords({ test: { p: 0 } }).test.p // => "less than 1e-300"
 */
export function withSmallestPInWords(answer: unknown): unknown {
  if (Array.isArray(answer)) return answer.every(isValues) ? answer.map(withSmallestPInWords) : answer
  return isValues(answer) ? inWords(answer) : answer
}

/**
 * The same for a result's own fields, which stay as they are but for such p values.
 *
 * @param values by name
 * @source none: it words what was computed
 * @example
 * inWords({ p: 0 }).p // => "less than 1e-300"
 */
export function inWords(values: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(values).map(([name, value]) => [
      name,
      P_VALUES.has(name) && typeof value === 'number' && value < LEAST_TOLD
        ? `less than ${LEAST_TOLD}`
        : withSmallestPInWords(value),
    ]),
  )
}

const isValues = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Two limits; one without a finite value is left out. */
export interface Limits {
  readonly lower?: unknown
  readonly upper?: unknown
}

/**
 * Two limits in one line; one without a finite value is said to have none.
 *
 * @param limits of an interval
 * @param words how a limit reads
 * @source none: it words what was computed
 * @example
 * limitWords({ lower: 1.2 }, String) // => "from 1.2, no finite upper limit"
 */
export function limitWords({ lower, upper }: Limits, words: (limit: unknown) => string): string {
  if (lower === undefined && upper === undefined) return 'no finite limit on either side'
  if (upper === undefined) return `from ${words(lower)}, no finite upper limit`
  return lower === undefined ? `up to ${words(upper)}, no finite lower limit` : `${words(lower)} to ${words(upper)}`
}
