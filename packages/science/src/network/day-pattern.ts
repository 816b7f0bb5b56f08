import table from '@rillmark/reference/network/profiles.json' with { type: 'json' }

export type DayPatternId = 'kitchen' | 'sink' | 'shower' | 'even'

const MINUTES_PER_DAY = 1440

/** When in the day a kind of outlet is used. */
export interface DayPattern {
  /** Share of the day's uses before each hour, 0 to 24: 25 values from 0 to 1. */
  usedBefore: readonly number[]
}

/**
 * The profile of the day by its name.
 *
 * Special cases: shares are taken by their proportions, whatever they add up to. The hourly list of sinks is printed
 * without an origin and taken to begin at 04:00.
 *
 * @param id profile
 * @throws RangeError for a profile that is not kept
 * @source pysimdeum
 * @source openstudio-hpxml
 * @example
 * dayPattern('even').usedBefore[12] // => 0.5
 */
export function dayPattern(id: DayPatternId): DayPattern {
  const found = PATTERNS.get(id)
  if (found === undefined) throw new RangeError(`Cannot lay out a day because the profile is unknown: got ${id}`)
  return found
}

const PATTERNS = new Map<string, DayPattern>(
  table.profiles.map(({ id, percentByHour }) => {
    const total = percentByHour.reduce((sum, percent) => sum + percent, 0)
    let before = 0
    const usedBefore = percentByHour.map((percent) => {
      const share = before / total
      before += percent
      return share
    })
    return [id, { usedBefore: [...usedBefore, 1] }]
  }),
)

/**
 * Which profile an outlet of a kind follows.
 *
 * Special cases: a kind that is in no family follows that of sinks.
 *
 * @param kind kind of a component
 * @source common-practice
 * @example
 * dayPatternOf('hand-shower') // => "shower"
 */
export function dayPatternOf(kind: string): DayPatternId {
  const families: [DayPatternId, readonly string[]][] = [
    ['kitchen', table.families.kitchen],
    ['shower', table.families.shower],
    ['even', table.families.even],
  ]
  return families.find(([, kinds]) => kinds.includes(kind))?.[0] ?? 'sink'
}

/**
 * The minute of the day before which a share of the uses has begun (0 to 1439).
 *
 * Special cases: within an hour the uses spread evenly; an hour without use is never met.
 *
 * @param pattern profile of the day
 * @param share above 0 and below 1
 * @source none: it computes nothing of the trade
 * @example
 * minuteOfShare(dayPattern('even'), 0.25) // => 360
 */
export function minuteOfShare({ usedBefore }: DayPattern, share: number): number {
  const hour = Math.max(
    0,
    usedBefore.findLastIndex((before) => before <= share),
  )
  const [from, to] = [usedBefore[hour] ?? 0, usedBefore[hour + 1] ?? 1]
  const within = to > from ? (share - from) / (to - from) : 0
  return Math.min(MINUTES_PER_DAY - 1, Math.floor((hour + within) * 60))
}
