/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { type Kinetics, LOWEST_C, TABLE_STEP_C } from './kinetics.ts'
import type { PipeRates } from './pipe-rates.ts'

const MINUTES_PER_HOUR = 60
const PLACES_PER_K = 1 / TABLE_STEP_C
/** Minutes of change that one look at the middle stands for; growth and decay change slowly beside it. */
const PANEL_MINUTES = 15
const MOST_PANELS = 64
/** Below this a first-order change is told by its series, to the last digit. */
const SMALL = 1e-3
/** A residual that no test kit could tell from none, mg/L. */
const NO_RESIDUAL = 1e-6
/** How far a temperature difference may move before the film of the air is looked at anew. */
const SAME_FILM = 0.01

/** Places of the quantities in a row of water: minutes, °C, mg/L, 0–1, minutes stood. */
export const WATER = { age: 0, temperature: 1, residual: 2, growth: 3, standing: 4 } as const
export const WATER_FIELDS = 5

/** Places in `exposure`: minutes in the pipe, of these at rest, decay times met at the wall while moving. */
export const EXPOSURE = { spent: 0, stood: 1, wall: 2 } as const

/**
 * What time in a pipe does to water: age, cooling towards the air, decay of the residual, growth. One body of water at a time
 * stands in `water`, with what it meets in `exposure`, and is changed in place: nothing is made in the hot path.
 *
 * dθ/dt = −λ θ (|θ|/θ₀)^n in closed form; residual and growth by the midpoint rule in pieces of at most a quarter of an hour, for
 * a residual and a temperature that change along.
 */
export class WaterChange {
  readonly water = new Float64Array(WATER_FIELDS)
  readonly exposure = new Float64Array(3)
  readonly #rates: PipeRates
  readonly #kinetics: Kinetics
  readonly #wallStandingPerHour: Float64Array
  readonly #ageCap: number
  readonly #lastRow: number
  /** The last film factor of each pipe and the difference it was worked out for. */
  readonly #filmAtK: Float64Array
  readonly #film: Float64Array

  constructor(of: { rates: PipeRates; kinetics: Kinetics; wallStandingPerHour: Float64Array; ageCapMinutes: number }) {
    this.#rates = of.rates
    this.#kinetics = of.kinetics
    this.#wallStandingPerHour = of.wallStandingPerHour
    this.#ageCap = of.ageCapMinutes
    this.#lastRow = of.kinetics.favour.length - 2
    this.#filmAtK = new Float64Array(of.rates.volumeL.length)
    this.#film = new Float64Array(of.rates.volumeL.length).fill(1)
  }

  /** Lets the water in hand stay in a pipe for the exposure in hand. */
  stay(pipe: number): void {
    const { water, exposure } = this
    const spent = exposure[EXPOSURE.spent]!
    const stood = exposure[EXPOSURE.stood]!
    const panels = spent <= PANEL_MINUTES ? 1 : Math.min(MOST_PANELS, Math.ceil(spent / PANEL_MINUTES))
    const cooling = this.#coolingOf(pipe) / panels
    const wall = (exposure[EXPOSURE.wall]! + (this.#wallStandingPerHour[pipe]! * stood) / MINUTES_PER_HOUR) / panels
    const hours = spent / panels / MINUTES_PER_HOUR
    for (let panel = 0; panel < panels; panel++) {
      const middleC = this.#cool(pipe, cooling)
      this.react(middleC, { wall, hours })
    }
    water[WATER.age] = Math.min(water[WATER.age]! + spent, this.#ageCap)
    water[WATER.standing] = Math.min(water[WATER.standing]! + stood, this.#ageCap)
  }

  /** Temperature alone of the water in hand after the exposure in hand, °C. */
  cooledC(pipe: number): number {
    const ambientC = this.#rates.ambientC[pipe]!
    const difference = this.water[WATER.temperature]! - ambientC
    return ambientC + difference * this.#kept(pipe, { difference, cooling: this.#coolingOf(pipe) })
  }

  /** Decay and growth alone, at one temperature (°C), of the water in hand. */
  react(temperatureC: number, { wall, hours }: { wall: number; hours: number }): void {
    const { water } = this
    const k = this.#kinetics
    const place = Math.min(Math.max((temperatureC - LOWEST_C) * PLACES_PER_K, 0), this.#lastRow)
    const row = place | 0
    const share = place - row
    const bulk = k.bulkPerHour[row]! + share * (k.bulkPerHour[row + 1]! - k.bulkPerHour[row]!)
    const favour = k.favour[row]! + share * (k.favour[row + 1]! - k.favour[row]!)
    const heat = k.dieOffPerHour[row]! + share * (k.dieOffPerHour[row + 1]! - k.dieOffPerHour[row]!)
    let residual = water[WATER.residual]!
    if (residual > 0) {
      const decay = bulk * hours + wall
      const kept = decay < SMALL ? 1 - decay / 2 + (decay * decay) / 8 : Math.exp(-decay / 2)
      const end = residual * kept * kept
      residual *= kept
      water[WATER.residual] = end < NO_RESIDUAL ? 0 : end
    }
    const up = (k.growthPerHour * favour) / (1 + residual / k.halfResidualMgPerL)
    const down = heat + k.killPerHourPerMgPerL[row]! * residual
    const rate = (up + down) * hours
    const growth = water[WATER.growth]!
    if (rate < SMALL) water[WATER.growth] = growth + (up * hours - rate * growth) * (1 - rate / 2)
    else {
      const settled = up / (up + down)
      water[WATER.growth] = settled + (growth - settled) * Math.exp(-rate)
    }
  }

  /** Where the water favours growth, 0 to 1: g(T) d(C). */
  favour(temperatureC: number, residualMgPerL: number): number {
    const place = Math.min(Math.max((temperatureC - LOWEST_C) * PLACES_PER_K, 0), this.#lastRow)
    const row = place | 0
    const { favour, halfResidualMgPerL } = this.#kinetics
    const here = favour[row]! + (place - row) * (favour[row + 1]! - favour[row]!)
    return here / (1 + residualMgPerL / halfResidualMgPerL)
  }

  #coolingOf(pipe: number): number {
    const stood = this.exposure[EXPOSURE.stood]!
    const moved = this.exposure[EXPOSURE.spent]! - stood
    return this.#rates.movingPerMinute[pipe]! * moved + this.#rates.standingPerMinute[pipe]! * stood
  }

  /** Cools the water in hand; answers its temperature half-way (°C). */
  #cool(pipe: number, cooling: number): number {
    const { water } = this
    const startC = water[WATER.temperature]!
    const ambientC = this.#rates.ambientC[pipe]!
    const difference = startC - ambientC
    if (difference === 0 || cooling === 0) return startC
    const kept = this.#kept(pipe, { difference, cooling: cooling / 2 })
    const half = difference * kept
    // the second half of an exponential is the first once more; where the film changes it is worked out from the middle
    const again =
      this.#rates.lossPower[pipe] === 0 ? kept : this.#kept(pipe, { difference: half, cooling: cooling / 2 })
    water[WATER.temperature] = ambientC + half * again
    return ambientC + half
  }

  /** The share of a difference from the air that is left. */
  #kept(pipe: number, { difference, cooling }: { difference: number; cooling: number }): number {
    const power = this.#rates.lossPower[pipe]!
    if (power === 0) return cooling < SMALL ? 1 - cooling + (cooling * cooling) / 2 : Math.exp(-cooling)
    const apart = Math.abs(difference)
    if (Math.abs(apart - this.#filmAtK[pipe]!) > SAME_FILM * apart) {
      this.#filmAtK[pipe] = apart
      this.#film[pipe] = (apart / this.#rates.lossAtK[pipe]!) ** power
    }
    const effective = cooling * this.#film[pipe]!
    if (effective < SMALL) return 1 - effective * (1 - ((1 + power) * effective) / 2)
    return (1 + power * effective) ** (-1 / power)
  }
}
