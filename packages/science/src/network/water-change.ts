/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { type Kinetics, LOWEST_C, TABLE_STEP_C } from './kinetics.ts'
import type { PipeRates } from './pipe-rates.ts'

const MINUTES_PER_HOUR = 60
const PLACES_PER_K = 1 / TABLE_STEP_C
/** Minutes of change that one look at the middle stands for: fewer where water is far from the air's temperature. */
const PANEL_MINUTES = 15
const SLOW_PANEL_MINUTES = 60
const MOST_PANELS = 64
/** Water within this of the air's temperature changes slowly, K; within the second, not at all. */
const NEAR_K = 1
const SAME_K = 1e-3
/** Below this, e^−x and the law of a changing film are told by their series, to better than a millionth. */
const SHORT = 0.05
/** A residual that no test kit could tell from none, mg/L. */
const NO_RESIDUAL = 1e-6
/** How far a temperature difference may move before the film of the air is looked at anew. */
const SAME_FILM = 0.02

/** Places of the quantities in a row of water: minutes, °C, mg/L, 0–1, minutes stood. */
export const WATER = { age: 0, temperature: 1, residual: 2, growth: 3, standing: 4 } as const
export const WATER_FIELDS = 5

/** Columns of the table of kinetics, by temperature. */
const COLUMNS = 4
const BULK = 0
const FAVOUR = 1
const HEAT = 2
const KILL = 3

/**
 * What time in a pipe does to water: age, cooling towards the air, decay of the residual, growth. One body of water at a time
 * stands in `water` and is changed in place: nothing is made in the hot path.
 *
 * dθ/dt = −λ θ (|θ|/θ₀)^n in closed form; residual and growth by the midpoint rule in pieces of at most a quarter of an hour, an hour
 * where the water is as warm as the air, for a residual and a temperature that change along.
 */
export class WaterChange {
  readonly water = new Float64Array(WATER_FIELDS)
  readonly #rates: PipeRates
  readonly #table: Float64Array
  readonly #lastRow: number
  readonly #growthPerHour: number
  readonly #halfResidual: number
  readonly #wallStandingPerHour: Float64Array
  readonly #ageCap: number
  /** The last film factor of each pipe and the difference it was worked out for. */
  readonly #filmAtK: Float64Array
  readonly #film: Float64Array

  constructor(of: { rates: PipeRates; kinetics: Kinetics; wallStandingPerHour: Float64Array; ageCapMinutes: number }) {
    const { kinetics, rates } = of
    this.#rates = rates
    this.#table = interleaved(kinetics)
    this.#lastRow = kinetics.favour.length - 2
    this.#growthPerHour = kinetics.growthPerHour
    this.#halfResidual = kinetics.halfResidualMgPerL
    this.#wallStandingPerHour = of.wallStandingPerHour
    this.#ageCap = of.ageCapMinutes
    this.#filmAtK = new Float64Array(rates.volumeL.length)
    this.#film = new Float64Array(rates.volumeL.length).fill(1)
  }

  /**
   * Lets the water in hand stay in a pipe.
   *
   * @param spent minutes in the pipe
   * @param stood of these, minutes at rest
   * @param wallMet decay times met at the wall while moving
   */
  stay(pipe: number, spent: number, stood: number, wallMet: number): void {
    const { water } = this
    const rates = this.#rates
    let cooling = rates.movingPerMinute[pipe]! * (spent - stood) + rates.standingPerMinute[pipe]! * stood
    let wall = wallMet + (this.#wallStandingPerHour[pipe]! * stood) / MINUTES_PER_HOUR
    let hours = spent / MINUTES_PER_HOUR
    let panels = 1
    if (spent > PANEL_MINUTES) {
      panels = this.#panelsFor(pipe, spent)
      cooling /= panels
      wall /= panels
      hours /= panels
    }
    for (let panel = 0; panel < panels; panel++) this.react(this.#cool(pipe, cooling), wall, hours)
    const age = water[WATER.age]! + spent
    water[WATER.age] = age > this.#ageCap ? this.#ageCap : age
    const standing = water[WATER.standing]! + stood
    water[WATER.standing] = standing > this.#ageCap ? this.#ageCap : standing
  }

  /** What the temperature in hand (°C) comes to in a pipe. */
  cooledC(pipe: number, spent: number, stood: number): number {
    const rates = this.#rates
    const cooling = rates.movingPerMinute[pipe]! * (spent - stood) + rates.standingPerMinute[pipe]! * stood
    const ambientC = rates.ambientC[pipe]!
    const difference = this.water[WATER.temperature]! - ambientC
    return ambientC + difference * this.#kept(pipe, difference, cooling)
  }

  /**
   * Decay and growth alone, at one temperature, of the water in hand.
   *
   * @param wall decay times met at the wall
   */
  react(temperatureC: number, wall: number, hours: number): void {
    const { water } = this
    const table = this.#table
    let place = (temperatureC - LOWEST_C) * PLACES_PER_K
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
      const kept = fade((bulk * hours + wall) / 2)
      residual *= kept
      const end = residual * kept
      water[WATER.residual] = end < NO_RESIDUAL ? 0 : end
      up /= 1 + residual / this.#halfResidual
      down += table[at + KILL]! * residual
    }
    const rate = up + down
    if (rate === 0) return
    const settled = up / rate
    water[WATER.growth] = settled + (water[WATER.growth]! - settled) * fade(rate * hours)
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

  #panelsFor(pipe: number, spent: number): number {
    const apart = Math.abs(this.water[WATER.temperature]! - this.#rates.ambientC[pipe]!)
    const panels = Math.ceil(spent / (apart < NEAR_K ? SLOW_PANEL_MINUTES : PANEL_MINUTES))
    return panels > MOST_PANELS ? MOST_PANELS : panels
  }

  /** Cools the water in hand; answers its temperature half-way (°C). */
  #cool(pipe: number, cooling: number): number {
    const { water } = this
    const startC = water[WATER.temperature]!
    const ambientC = this.#rates.ambientC[pipe]!
    const difference = startC - ambientC
    if (cooling === 0 || (difference < SAME_K && difference > -SAME_K)) return startC
    const kept = this.#kept(pipe, difference, cooling / 2)
    const half = difference * kept
    // the second half of an exponential is the first once more; where the film changes it is worked out from the middle
    const same = cooling < SHORT || this.#rates.lossPower[pipe] === 0
    water[WATER.temperature] = ambientC + half * (same ? kept : this.#kept(pipe, half, cooling / 2))
    return ambientC + half
  }

  /** The share of a difference from the air that is left. */
  #kept(pipe: number, difference: number, cooling: number): number {
    const power = this.#rates.lossPower[pipe]!
    if (power === 0) return fade(cooling)
    const apart = difference < 0 ? -difference : difference
    const moved = apart - this.#filmAtK[pipe]!
    if (moved > SAME_FILM * apart || -moved > SAME_FILM * apart) {
      this.#filmAtK[pipe] = apart
      this.#film[pipe] = (apart / this.#rates.lossAtK[pipe]!) ** power
    }
    const effective = cooling * this.#film[pipe]!
    const bend = power * effective
    if (bend < SHORT) return fade(effective * (1 - bend * (1 / 2 - bend * (1 / 3 - bend / 4))))
    return Math.exp(-Math.log1p(bend) / power)
  }
}

/** e^−x. */
function fade(x: number): number {
  return x < SHORT ? 1 - x * (1 - (x / 2) * (1 - (x / 3) * (1 - x / 4))) : Math.exp(-x)
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
