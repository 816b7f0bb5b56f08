import { type RandomSource, seededRandom } from '../random/random-source.ts'
import { type DayPattern, type DayPatternId, dayPattern, minuteOfShare } from './day-pattern.ts'
import type { Draw } from './network.ts'

export interface DrawScheduleInput {
  outletId: string
  /** Of the run, whole, 0 to 4294967295. */
  seed: number
  eventsPerDay: number
  /** Mean length of one use. */
  minutes: number
  flowLPerMin: number
  mixToC?: number | undefined
  dayPattern?: DayPatternId | undefined
  /** Lengths all alike, or as Dutch showers: chi-square with the mean as its degrees of freedom. `constant` where left out. */
  durations?: 'constant' | 'chi-square' | undefined
}

const MINUTES_PER_DAY = 1440
/** A day shared out and put together again is longer by the last digits. */
const ROUNDING = 1e-9
/** Tries to find room at a time of the profile before the day is laid out evenly. */
const TRIES = 200

interface Pulse {
  minutes: number
  flowLPerMin: number
}

/**
 * The draws of one outlet over a day that stands for every day: rectangular pulses at times the profile makes likely.
 * Wanted because most descriptions say how often an outlet is used, and age and temperature depend on when.
 *
 * n = eventsPerDay rounded, at least 1, pulses at starts drawn from the profile; their volume together is
 * eventsPerDay · minutes · flow.
 *
 * Special cases: the day's volume is always kept. A rounded number of uses makes each longer or shorter (one use every
 * other day is one a day of half the length); each lasts whole minutes, at least one, at a flow that keeps its volume. Draws
 * never overlap; one may run past midnight. Where uses of whole minutes would fill the day it is one constant draw. The
 * chance comes from the run's seed and the outlet's id, so that other outlets, their names and their order change nothing. Lengths
 * and flows are independent here, which in measured use they are not.
 *
 * @param input uses a day (0 or more), mean length (minutes) and flow (L/min) above 0, seed of the run, profile (`sink`)
 * @throws RangeError when a figure is out of range or the uses take more than the day
 * @source pysimdeum
 * @source buchberger-wells-1996
 * @example
 * drawsOf({ outletId: 'a', seed: 1, eventsPerDay: 0.5, minutes: 10, flowLPerMin: 12 })[0].minutes // => 5
 */
export function drawsOf(input: DrawScheduleInput): Draw[] {
  const { eventsPerDay, minutes, flowLPerMin, mixToC } = checked(input)
  if (eventsPerDay === 0) return []
  const random = seededRandom(outletSeed(input))
  const pulses = wholeMinutes(lengthsOf(input, random), flowLPerMin)
  const also = mixToC === undefined ? {} : { mixToC }
  if (pulses.reduce((sum, pulse) => sum + pulse.minutes, 0) >= MINUTES_PER_DAY) {
    const flow = (eventsPerDay * minutes * flowLPerMin) / MINUTES_PER_DAY
    return [{ startMinute: 0, minutes: MINUTES_PER_DAY, flowLPerMin: flow, ...also }]
  }
  const starts = startsOf(pulses, { random, pattern: dayPattern(input.dayPattern ?? 'sink') })
  return pulses
    .map((pulse, at) => ({ startMinute: starts[at] ?? 0, ...pulse, ...also }))
    .toSorted((a, b) => a.startMinute - b.startMinute)
}

/**
 * A seed for one outlet (whole, 0 to 4294967295) from the run's and its id.
 *
 * Special cases: two ids may meet in one seed, by a chance of one in 2³²; their days are then alike, no more.
 *
 * @param of seed of the run and id of the outlet
 * @source none: it computes nothing of the trade
 * @example
 * outletSeed({ seed: 1, outletId: 'a' }) === outletSeed({ seed: 2, outletId: 'a' }) // => false
 */
export function outletSeed({ seed, outletId }: { seed: number; outletId: string }): number {
  let mixed = seed | 0
  for (let at = 0; at < outletId.length; at++) mixed = stirred(mixed ^ outletId.charCodeAt(at))
  return stirred(mixed ^ outletId.length) >>> 0
}

/** A word of 32 bits, mixed by multiplying and folding, with a step so that 0 does not stay 0. */
function stirred(value: number): number {
  const first = Math.imul(value ^ (value >>> 16), 0x85_eb_ca_6b)
  const second = Math.imul(first ^ (first >>> 13), 0xc2_b2_ae_35)
  return ((second ^ (second >>> 16)) + 0x9e_37_79_b9) | 0
}

function checked(input: DrawScheduleInput): DrawScheduleInput {
  const { eventsPerDay, minutes, flowLPerMin } = input
  const finite = [eventsPerDay, minutes, flowLPerMin].every(Number.isFinite)
  if (!finite || eventsPerDay < 0 || minutes <= 0 || flowLPerMin <= 0)
    throw new RangeError(
      `Cannot lay out draws because uses must be 0 or more, minutes and flow above 0: got ${eventsPerDay}, ${minutes}, ${flowLPerMin}`,
    )
  if (eventsPerDay * minutes > MINUTES_PER_DAY * (1 + ROUNDING))
    throw new RangeError(
      `Cannot lay out draws because a day has ${MINUTES_PER_DAY} minutes: got ${eventsPerDay} uses of ${minutes} min`,
    )
  return input
}

/** Minutes of each use, before rounding; together eventsPerDay · minutes. */
function lengthsOf({ eventsPerDay, minutes, durations }: DrawScheduleInput, random: RandomSource): number[] {
  const count = Math.min(MINUTES_PER_DAY, Math.max(1, Math.round(eventsPerDay)))
  const total = eventsPerDay * minutes
  const drawn = Array.from({ length: count }, () => (durations === 'chi-square' ? random.gamma(minutes / 2) : 1))
  const sum = drawn.reduce((a, b) => a + b, 0)
  return drawn.map((each) => (sum > 0 ? (each / sum) * total : total / count))
}

function wholeMinutes(lengths: readonly number[], flowLPerMin: number): Pulse[] {
  return lengths.map((length) => {
    const minutes = Math.max(1, Math.round(length))
    return { minutes, flowLPerMin: (length / minutes) * flowLPerMin }
  })
}

/** Start of each pulse; the longest look for room first. */
function startsOf(pulses: readonly Pulse[], by: { random: RandomSource; pattern: DayPattern }): number[] {
  const taken = new Uint8Array(MINUTES_PER_DAY)
  const starts: number[] = Array.from({ length: pulses.length }, () => 0)
  const order = pulses.map((_, at) => at).toSorted((a, b) => (pulses[b]?.minutes ?? 0) - (pulses[a]?.minutes ?? 0))
  for (const at of order) {
    const minutes = pulses[at]?.minutes ?? 1
    const start = roomFor(minutes, { ...by, taken })
    if (start === undefined) return evenly(pulses)
    for (let minute = 0; minute < minutes; minute++) taken[(start + minute) % MINUTES_PER_DAY] = 1
    starts[at] = start
  }
  return starts
}

function roomFor(
  minutes: number,
  { random, pattern, taken }: { random: RandomSource; pattern: DayPattern; taken: Uint8Array },
): number | undefined {
  for (let tries = 0; tries < TRIES; tries++) {
    const start = minuteOfShare(pattern, random.uniform())
    let free = 0
    while (free < minutes && taken[(start + free) % MINUTES_PER_DAY] === 0) free++
    if (free === minutes) return start
  }
  return undefined
}

/** One after the other with the free minutes shared out between them. */
function evenly(pulses: readonly Pulse[]): number[] {
  const spare = MINUTES_PER_DAY - pulses.reduce((sum, { minutes }) => sum + minutes, 0)
  let busy = 0
  return pulses.map(({ minutes }, at) => {
    const start = busy + Math.floor((spare * at) / pulses.length)
    busy += minutes
    return start
  })
}
