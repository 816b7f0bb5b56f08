const MS_PER_DAY = 86_400_000

/**
 * A calendar date some days earlier, as YYYY-MM-DD.
 *
 * @param date YYYY-MM-DD
 * @param days how many days earlier, whole
 * @throws RangeError when it isn't a date
 * @source common-practice
 * @example
 * daysBefore('2024-03-01', 1) // => "2024-02-29"
 */
export function daysBefore(date: string, days: number): string {
  const instant = Date.parse(`${date}T00:00:00Z`)
  if (Number.isNaN(instant)) throw new RangeError(`Cannot count days because a date is needed: got ${date}`)
  return new Date(instant - days * MS_PER_DAY).toISOString().slice(0, 10)
}
