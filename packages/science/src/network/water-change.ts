/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { fade } from './fade.ts'
import { FilmTable } from './film-table.ts'
import { type Kinetics, LOWEST_C, TABLE_STEP_C } from './kinetics.ts'
import type { PipeRates } from './pipe-rates.ts'

const MINUTES_PER_HOUR = 60
const PLACES_PER_K = 1 / TABLE_STEP_C
/** Minutes of change that one look at the middle stands for: fewer where water is far from the air's temperature. */
const PANEL_MINUTES = 15
const SLOW_PANEL_MINUTES = 240
const MOST_PANELS = 64
/** Water within this of the air's temperature changes slowly, K; within the second, not at all. */
const NEAR_K = 1
const SAME_K = 1e-3
/** Below this the law of a changing film is told by its series, to better than a millionth. */
const SHORT = 0.05
/** A residual that no test kit could tell from none, mg/L. */
const NO_RESIDUAL = 1e-6
const NO_GROWTH = 1e-9

/** Places of the quantities in a row of water: minutes, °C, mg/L, 0–1, minutes stood. */
export const WATER = { age: 0, temperature: 1, residual: 2, growth: 3, standing: 4 } as const
export const WATER_FIELDS = 5

/** Places in `exposure`: minutes in the pipe, of these at rest, decay times met at the wall while moving. */
export const EXPOSURE = { spent: 0, stood: 1, wall: 2 } as const

/** What one piece of the time in a pipe is worked out with: decay times of cooling and at the wall, hours, °C. */
const NOW = { cooling: 0, wall: 1, hours: 2, middleC: 3 } as const

/** Columns of the table of kinetics, by temperature. */
const COLUMNS = 4
const BULK = 0
const FAVOUR = 1
const HEAT = 2
const KILL = 3

/**
 * What time in a pipe does to water: age, cooling towards the air, decay of the residual, growth. One body of water at a time
 * stands in `water`, with what it meets in `exposure`, and is changed in place: nothing is made in the hot path, not even the
 * boxes in which numbers are handed from one function to another.
 *
 * dθ/dt = −λ θ (|θ|/θ₀)^n in closed form; residual and growth by the midpoint rule in pieces of at most a quarter of an hour, four hours
 * where the water is as warm as the air, for a residual and a temperature that change along.
 */
export class WaterChange {
  readonly water = new Float64Array(WATER_FIELDS)
  readonly exposure = new Float64Array(3)
  readonly #now = new Float64Array(4)
  readonly #rates: PipeRates
  readonly #table: Float64Array
  readonly #lastRow: number
  readonly #growthPerHour: number
  readonly #halfResidual: number
  readonly #wallStandingPerHour: Float64Array
  readonly #ageCap: number
  readonly #film: FilmTable

  constructor(of: { rates: PipeRates; kinetics: Kinetics; wallStandingPerHour: Float64Array; ageCapMinutes: number }) {
    const { kinetics, rates } = of
    this.#rates = rates
    this.#table = interleaved(kinetics)
    this.#lastRow = kinetics.favour.length - 2
    this.#growthPerHour = kinetics.growthPerHour
    this.#halfResidual = kinetics.halfResidualMgPerL
    this.#wallStandingPerHour = of.wallStandingPerHour
    this.#ageCap = of.ageCapMinutes
    this.#film = new FilmTable(rates)
  }

  /** Lets the water in hand stay in a pipe for the exposure in hand. */
  stay(pipe: number): void {
    const { water, exposure } = this
    const spent = exposure[EXPOSURE.spent]!
    const stood = exposure[EXPOSURE.stood]!
    const rates = this.#rates
    let cooling = rates.movingPerMinute[pipe]! * (spent - stood) + rates.standingPerMinute[pipe]! * stood
    let wall = exposure[EXPOSURE.wall]! + (this.#wallStandingPerHour[pipe]! * stood) / MINUTES_PER_HOUR
    let hours = spent / MINUTES_PER_HOUR
    let panels = 1
    if (spent > PANEL_MINUTES) {
      panels = this.#panelsFor(pipe)
      cooling /= panels
      wall /= panels
      hours /= panels
    }
    const now = this.#now
    now[NOW.cooling] = cooling
    now[NOW.wall] = wall
    now[NOW.hours] = hours
    for (let panel = 0; panel < panels; panel++) {
      this.#cool(pipe)
      this.#react()
    }
    const age = water[WATER.age]! + spent
    water[WATER.age] = age > this.#ageCap ? this.#ageCap : age
    const standing = water[WATER.standing]! + stood
    water[WATER.standing] = standing > this.#ageCap ? this.#ageCap : standing
  }

  /** What the temperature in hand (°C) comes to in a pipe, in the exposure in hand. */
  cooledC(pipe: number): number {
    const { exposure } = this
    const rates = this.#rates
    const stood = exposure[EXPOSURE.stood]!
    const cooling =
      rates.movingPerMinute[pipe]! * (exposure[EXPOSURE.spent]! - stood) + rates.standingPerMinute[pipe]! * stood
    const ambientC = rates.ambientC[pipe]!
    const difference = this.water[WATER.temperature]! - ambientC
    return ambientC + difference * this.#kept(pipe, difference, cooling)
  }

  /** Decay and growth alone, at one temperature (°C) for some hours, of the water in hand. */
  react(temperatureC: number, hours: number): void {
    const now = this.#now
    now[NOW.middleC] = temperatureC
    now[NOW.wall] = 0
    now[NOW.hours] = hours
    this.#react()
  }

  /** Where water favours growth, 0 to 1: g(T) d(C). */
  favour(temperatureC: number, residualMgPerL: number): number {
    let place = (temperatureC - LOWEST_C) * PLACES_PER_K
    if (place < 0) place = 0
    if (place > this.#lastRow) place = this.#lastRow
    const row = place | 0
    const at = row * COLUMNS + FAVOUR
    const here = this.#table[at]! + (place - row) * (this.#table[at + COLUMNS]! - this.#table[at]!)
    return here / (1 + residualMgPerL / this.#halfResidual)
  }

  #react(): void {
    const { water } = this
    const now = this.#now
    const table = this.#table
    const hours = now[NOW.hours]!
    let place = (now[NOW.middleC]! - LOWEST_C) * PLACES_PER_K
    if (place < 0) place = 0
    if (place > this.#lastRow) place = this.#lastRow
    const row = place | 0
    const share = place - row
    const at = row * COLUMNS
    let residual = water[WATER.residual]!
    let down = table[at + HEAT]! + share * (table[at + COLUMNS + HEAT]! - table[at + HEAT]!)
    let up = this.#growthPerHour * (table[at + FAVOUR]! + share * (table[at + COLUMNS + FAVOUR]! - table[at + FAVOUR]!))
    if (residual > 0) {
      const bulk = table[at + BULK]! + share * (table[at + COLUMNS + BULK]! - table[at + BULK]!)
      const kept = fade((bulk * hours + now[NOW.wall]!) / 2)
      residual *= kept
      const end = residual * kept
      water[WATER.residual] = end < NO_RESIDUAL ? 0 : end
      up /= 1 + residual / this.#halfResidual
      down += table[at + KILL]! * residual
    }
    const rate = up + down
    if (rate === 0) return
    const settled = up / rate
    const growth = settled + (water[WATER.growth]! - settled) * fade(rate * hours)
    water[WATER.growth] = growth < NO_GROWTH ? 0 : growth
  }

  #panelsFor(pipe: number): number {
    const apart = Math.abs(this.water[WATER.temperature]! - this.#rates.ambientC[pipe]!)
    const panels = Math.ceil(this.exposure[EXPOSURE.spent]! / (apart < NEAR_K ? SLOW_PANEL_MINUTES : PANEL_MINUTES))
    return panels > MOST_PANELS ? MOST_PANELS : panels
  }

  /** Cools the water in hand, and notes its temperature half-way. */
  #cool(pipe: number): void {
    const { water } = this
    const now = this.#now
    const startC = water[WATER.temperature]!
    const ambientC = this.#rates.ambientC[pipe]!
    const difference = startC - ambientC
    const cooling = now[NOW.cooling]!
    now[NOW.middleC] = startC
    if (cooling === 0 || (difference < SAME_K && difference > -SAME_K)) return
    const kept = this.#kept(pipe, difference, cooling / 2)
    const half = difference * kept
    // the second half of an exponential is the first once more; where the film changes it is worked out from the middle
    const same = cooling < SHORT || this.#rates.lossPower[pipe] === 0
    now[NOW.middleC] = ambientC + half
    water[WATER.temperature] = ambientC + half * (same ? kept : this.#kept(pipe, half, cooling / 2))
  }

  /** The share of a difference from the air that is left. */
  #kept(pipe: number, difference: number, cooling: number): number {
    const power = this.#rates.lossPower[pipe]!
    if (power === 0) return fade(cooling)
    const effective = cooling * this.#film.at(pipe, difference < 0 ? -difference : difference)
    const bend = power * effective
    if (bend < SHORT) return fade(effective * (1 - bend * (1 / 2 - bend * (1 / 3 - bend / 4))))
    return Math.exp(-Math.log1p(bend) / power)
  }
}

/** The tables side by side, so that one look finds all of a temperature. */
function interleaved({ bulkPerHour, favour, dieOffPerHour, killPerHourPerMgPerL }: Kinetics): Float64Array {
  const table = new Float64Array(favour.length * COLUMNS)
  for (let row = 0; row < favour.length; row++) {
    table[row * COLUMNS + BULK] = bulkPerHour[row]!
    table[row * COLUMNS + FAVOUR] = favour[row]!
    table[row * COLUMNS + HEAT] = dieOffPerHour[row]!
    table[row * COLUMNS + KILL] = killPerHourPerMgPerL[row]!
  }
  return table
}
