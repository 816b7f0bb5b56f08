/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { fade } from './fade.ts'
import { FilmTable } from './film-table.ts'
import { type Kinetics, LOWEST_C, TABLE_STEP_C } from './kinetics.ts'
import type { PipeRates } from './pipe-rates.ts'

const MINUTES_PER_HOUR = 60
const HOURS_PER_MINUTE = 1 / MINUTES_PER_HOUR
const PLACES_PER_K = 1 / TABLE_STEP_C
/**
 * One look at the middle stands for a panel of change, in which water cools or warms by about so many K: not shorter than the first, not
 * longer than the second, minutes. What is left is one panel where it is shorter than so many.
 */
const PANEL_K = 2
const LEAST_PANEL_MINUTES = 15
const SLOW_PANEL_MINUTES = 240
const LAST_PANELS = 1.5
/** Water within this of the air's temperature does not change it, K. */
const SAME_K = 1e-3
/** Below this the law of a changing film is told by its series, to better than a millionth. */
const SHORT = 0.05
const THIRD = 1 / 3
/** A residual that no test kit could tell from none, mg/L. */
const NO_RESIDUAL = 1e-6
const NO_GROWTH = 1e-9

/** Places of the quantities in a row of water: minutes, °C, mg/L, 0–1, minutes stood. */
export const WATER = { age: 0, temperature: 1, residual: 2, growth: 3, standing: 4 } as const
export const WATER_FIELDS = 5

/** Places in `exposure`: minutes in the pipe, of these at rest, decay times met at the wall while moving. */
export const EXPOSURE = { spent: 0, stood: 1, wall: 2 } as const

/** What one piece of the time in a pipe is worked out with: decay times of cooling and at the wall, minutes. */
const NOW = { cooling: 0, wall: 1, minutes: 2 } as const

/** A pipe's row: °C of the air; cooling a minute of moving and of standing water; its power and law; decay times a minute at the wall. */
const AMBIENT = 0
const MOVING = 1
const STANDING = 2
const POWER = 3
const LAW = 4
const WALL_STANDING = 5
const COLUMNS = 8

/** Columns of the table of kinetics, by temperature. */
const KINDS = 4
const BULK = 0
const FAVOUR = 1
const HEAT = 2
const KILL = 3

/**
 * What time in a pipe does to water: age, cooling towards the air, decay of the residual, growth. One body of water at a time
 * stands in `water`, with what it meets in `exposure`, and is changed in place: nothing is made in the hot path, not even the
 * boxes in which numbers are handed from one function to another.
 *
 * dθ/dt = −λ θ (|θ|/θ₀)^n in closed form; residual and growth by the midpoint rule in panels of a quarter of an hour, of more, up to
 * four hours, where the temperature hardly changes.
 */
export class WaterChange {
  readonly water = new Float64Array(WATER_FIELDS)
  readonly exposure = new Float64Array(3)
  readonly #now = new Float64Array(3)
  readonly #rows: Float64Array
  readonly #table: Float64Array
  readonly #lastRow: number
  readonly #perHalfResidual: number
  readonly #growthPerHour: number
  readonly #ageCap: number
  readonly #film: FilmTable

  constructor(of: { rates: PipeRates; kinetics: Kinetics; wallStandingPerHour: Float64Array; ageCapMinutes: number }) {
    const { kinetics, rates } = of
    this.#table = interleaved(kinetics)
    this.#lastRow = kinetics.favour.length - 2
    this.#growthPerHour = kinetics.growthPerHour
    this.#perHalfResidual = 1 / kinetics.halfResidualMgPerL
    this.#ageCap = of.ageCapMinutes
    this.#film = new FilmTable(rates)
    this.#rows = pipeRowsOf(rates, { film: this.#film, wallStandingPerHour: of.wallStandingPerHour })
  }

  /** Lets the water in hand stay in a pipe for the exposure in hand. */
  stay(pipe: number): void {
    const { exposure } = this
    const rows = this.#rows
    const row = pipe * COLUMNS
    const spent = exposure[EXPOSURE.spent]!
    const stood = exposure[EXPOSURE.stood]!
    const now = this.#now
    now[NOW.cooling] = rows[row + MOVING]! * (spent - stood) + rows[row + STANDING]! * stood
    now[NOW.wall] = exposure[EXPOSURE.wall]! + rows[row + WALL_STANDING]! * stood
    now[NOW.minutes] = spent
    this.#live(row, LEAST_PANEL_MINUTES)
    this.#grow(spent, stood)
  }

  /** How long water in hand may stand in a pipe until it has cooled or warmed by about so much, minutes. */
  standingMinutes(pipe: number, changeK: number): number {
    const rows = this.#rows
    const row = pipe * COLUMNS
    const difference = this.water[WATER.temperature]! - rows[row + AMBIENT]!
    const apart = difference < 0 ? -difference : difference
    const perMinute = rows[row + STANDING]! * this.#film.at(rows[row + LAW]!, apart)
    return changeK / (apart * perMinute + Number.MIN_VALUE)
  }

  /** Lets the water in hand stand in a pipe for some minutes, in which it changes little. */
  stand(pipe: number, minutes: number): void {
    const row = pipe * COLUMNS
    const now = this.#now
    now[NOW.cooling] = this.#rows[row + STANDING]! * minutes
    now[NOW.wall] = this.#rows[row + WALL_STANDING]! * minutes
    now[NOW.minutes] = minutes
    this.#live(row, minutes)
    this.#grow(minutes, minutes)
  }

  /** What the temperature in hand (°C) comes to in a pipe, in the exposure in hand. */
  cooledC(pipe: number): number {
    const { exposure } = this
    const rows = this.#rows
    const row = pipe * COLUMNS
    const stood = exposure[EXPOSURE.stood]!
    const cooling = rows[row + MOVING]! * (exposure[EXPOSURE.spent]! - stood) + rows[row + STANDING]! * stood
    const ambientC = rows[row + AMBIENT]!
    const difference = this.water[WATER.temperature]! - ambientC
    const film = this.#film.at(rows[row + LAW]!, difference < 0 ? -difference : difference)
    return ambientC + difference * kept(rows[row + POWER]!, cooling * film)
  }

  /** Decay and growth alone, of the water in hand, which has one temperature (°C) for some hours. */
  react(temperatureC: number, hours: number): void {
    const now = this.#now
    this.water[WATER.temperature] = temperatureC
    now[NOW.cooling] = 0
    now[NOW.wall] = 0
    now[NOW.minutes] = hours * MINUTES_PER_HOUR
    this.#live(0, now[NOW.minutes]!)
  }

  /** Where water favours growth, 0 to 1: g(T) d(C). */
  favour(temperatureC: number, residualMgPerL: number): number {
    let place = (temperatureC - LOWEST_C) * PLACES_PER_K
    if (place < 0) place = 0
    if (place > this.#lastRow) place = this.#lastRow
    const row = place | 0
    const at = row * KINDS + FAVOUR
    const here = this.#table[at]! + (place - row) * (this.#table[at + KINDS]! - this.#table[at]!)
    return here / (1 + residualMgPerL * this.#perHalfResidual)
  }

  /**
   * Cooling, decay and growth of the water in hand, panel by panel; no panel is shorter than the least (minutes). One long function,
   * because a number that one hands to another is boxed on its way.
   */
  #live(row: number, leastMinutes: number): void {
    const { water } = this
    const now = this.#now
    const rows = this.#rows
    const table = this.#table
    const ambientC = rows[row + AMBIENT]!
    const power = rows[row + POWER]!
    const minutes = now[NOW.minutes]!
    let temperatureC = water[WATER.temperature]!
    let residual = water[WATER.residual]!
    let growth = water[WATER.growth]!
    // of the whole time
    let left = 1
    while (left > 0) {
      const difference = temperatureC - ambientC
      const apart = difference < 0 ? -difference : difference
      const cooling = apart < SAME_K ? 0 : now[NOW.cooling]! * this.#film.at(rows[row + LAW]!, apart)
      let share = left
      if (minutes > leastMinutes) {
        share = PANEL_K / (cooling * apart + Number.MIN_VALUE)
        if (share * minutes > SLOW_PANEL_MINUTES) share = SLOW_PANEL_MINUTES / minutes
        if (share * minutes < leastMinutes) share = leastMinutes / minutes
        if (share * LAST_PANELS > left) share = left
      }
      left -= share
      let middleC = temperatureC
      if (cooling > 0) {
        const half = 0.5 * cooling * share
        const keptHalf = kept(power, half)
        middleC = ambientC + difference * keptHalf
        // an exponential goes on as it began, and all curves do for a moment
        const same = power === 0 || half < SHORT / 2
        temperatureC = ambientC + difference * (same ? keptHalf * keptHalf : kept(power, 2 * half))
      }
      const hours = minutes * HOURS_PER_MINUTE * share
      let place = (middleC - LOWEST_C) * PLACES_PER_K
      if (place < 0) place = 0
      if (place > this.#lastRow) place = this.#lastRow
      const at = (place | 0) * KINDS
      const part = place - (place | 0)
      let down = table[at + HEAT]! + part * (table[at + KINDS + HEAT]! - table[at + HEAT]!)
      let up = this.#growthPerHour * (table[at + FAVOUR]! + part * (table[at + KINDS + FAVOUR]! - table[at + FAVOUR]!))
      if (residual > 0) {
        const bulk = table[at + BULK]! + part * (table[at + KINDS + BULK]! - table[at + BULK]!)
        const keptHalf = fade(0.5 * (bulk * hours + now[NOW.wall]! * share))
        const middle = residual * keptHalf
        residual = middle * keptHalf
        if (residual < NO_RESIDUAL) residual = 0
        up /= 1 + middle * this.#perHalfResidual
        down += table[at + KILL]! * middle
      }
      const rate = up + down
      if (rate === 0) continue
      const settled = up / rate
      growth = settled + (growth - settled) * fade(rate * hours)
      if (growth < NO_GROWTH) growth = 0
    }
    water[WATER.temperature] = temperatureC
    water[WATER.residual] = residual
    water[WATER.growth] = growth
  }

  /** Older by some minutes, of these at rest so many. */
  #grow(minutes: number, stood: number): void {
    const { water } = this
    const age = water[WATER.age]! + minutes
    water[WATER.age] = age > this.#ageCap ? this.#ageCap : age
    const standing = water[WATER.standing]! + stood
    water[WATER.standing] = standing > this.#ageCap ? this.#ageCap : standing
  }
}

/** The share of a difference from the air that is left, where the loss goes with a power of it (0 to 1). */
function kept(power: number, cooling: number): number {
  const bend = power * cooling
  if (bend < SHORT) return fade(cooling * (1 - bend * (0.5 - bend * (THIRD - bend * 0.25))))
  return Math.exp(-Math.log1p(bend) / power)
}

/** A pipe's row, side by side in memory. */
function pipeRowsOf(
  rates: PipeRates,
  { film, wallStandingPerHour }: { film: FilmTable; wallStandingPerHour: Float64Array },
): Float64Array {
  const rows = new Float64Array(rates.ambientC.length * COLUMNS)
  for (let pipe = 0; pipe < rates.ambientC.length; pipe++) {
    const row = pipe * COLUMNS
    rows[row + AMBIENT] = rates.ambientC[pipe]!
    rows[row + MOVING] = rates.movingPerMinute[pipe]!
    rows[row + STANDING] = rates.standingPerMinute[pipe]!
    rows[row + POWER] = rates.lossPower[pipe]!
    rows[row + LAW] = film.lawOf(pipe)
    rows[row + WALL_STANDING] = wallStandingPerHour[pipe]! / MINUTES_PER_HOUR
  }
  return rows
}

/** The tables side by side, so that one look finds all of a temperature. */
function interleaved({ bulkPerHour, favour, dieOffPerHour, killPerHourPerMgPerL }: Kinetics): Float64Array {
  const table = new Float64Array(favour.length * KINDS)
  for (let row = 0; row < favour.length; row++) {
    table[row * KINDS + BULK] = bulkPerHour[row]!
    table[row * KINDS + FAVOUR] = favour[row]!
    table[row * KINDS + HEAT] = dieOffPerHour[row]!
    table[row * KINDS + KILL] = killPerHourPerMgPerL[row]!
  }
  return table
}
