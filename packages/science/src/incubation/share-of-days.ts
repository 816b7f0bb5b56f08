/**
 * How much of a case's incubation a stay covers: the chance, 0 to 1, that exposure fell on one of the days present.
 * Wanted to put the places first where a case most likely was when it was infected.
 *
 * share = Σ density(day) over the days present; a day counts once however often it is named.
 *
 * Special cases: 0 where no day present can be the day of exposure.
 *
 * @param density chance that exposure fell on a day, by date (YYYY-MM-DD)
 * @param days present, by date
 * @source none: a sum over the days of `incubation`
 * @example
 * shareOfDays(new Map([['2026-03-09', 0.2], ['2026-03-10', 0.1]]), ['2026-03-09', '2026-03-09']) // => 0.2
 */
export function shareOfDays(density: ReadonlyMap<string, number>, days: Iterable<string>): number {
  return [...new Set(days)].reduce((sum, day) => sum + (density.get(day) ?? 0), 0)
}
