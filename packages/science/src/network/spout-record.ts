/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { OutletDay, Spread } from './day-result.ts'
import { WATER, WATER_FIELDS } from './water-change.ts'

const MINUTES_PER_HOUR = 60

/** Water that came out of one spout in one step. */
export interface SpoutWater {
  outlet: number
  litres: number
  /** For which it ran. */
  minutes: number
  tooCold: boolean
}

/** The day at the spouts, weighted by what was drawn. */
export class SpoutRecord {
  readonly #litres: Float64Array
  readonly #minutes: Float64Array
  readonly #coldMinutes: Float64Array
  readonly #sums: Float64Array
  readonly #least: Float64Array
  readonly #greatest: Float64Array
  /** Litres that left the building since the start, and their litres × K. */
  leftL = 0
  leftLK = 0

  constructor(outlets: number) {
    this.#litres = new Float64Array(outlets)
    this.#minutes = new Float64Array(outlets)
    this.#coldMinutes = new Float64Array(outlets)
    this.#sums = new Float64Array(outlets * WATER_FIELDS)
    this.#least = new Float64Array(outlets * WATER_FIELDS)
    this.#greatest = new Float64Array(outlets * WATER_FIELDS)
    this.begin()
  }

  /** Begins a new day. */
  begin(): void {
    for (const one of [this.#litres, this.#minutes, this.#coldMinutes, this.#sums]) one.fill(0)
    this.#least.fill(Number.POSITIVE_INFINITY)
    this.#greatest.fill(Number.NEGATIVE_INFINITY)
  }

  add({ outlet, litres, minutes, tooCold }: SpoutWater, water: Float64Array): void {
    this.#litres[outlet]! += litres
    this.#minutes[outlet]! += minutes
    if (tooCold) this.#coldMinutes[outlet]! += minutes
    this.leftL += litres
    this.leftLK += litres * water[WATER.temperature]!
    const row = outlet * WATER_FIELDS
    for (let field = 0; field < WATER_FIELDS; field++) {
      const value = water[field]!
      this.#sums[row + field]! += litres * value
      if (value < this.#least[row + field]!) this.#least[row + field] = value
      if (value > this.#greatest[row + field]!) this.#greatest[row + field] = value
    }
  }

  dayOf(outlet: number): OutletDay | undefined {
    const drawnL = this.#litres[outlet]!
    if (drawnL === 0) return undefined
    const row = outlet * WATER_FIELDS
    const spread = (field: number, per = 1): Spread => ({
      mean: this.#sums[row + field]! / drawnL / per,
      min: this.#least[row + field]! / per,
      max: this.#greatest[row + field]! / per,
    })
    return {
      ageHours: spread(WATER.age, MINUTES_PER_HOUR),
      temperatureC: spread(WATER.temperature),
      residualMgPerL: spread(WATER.residual),
      standingHours: spread(WATER.standing, MINUTES_PER_HOUR),
      growth: spread(WATER.growth),
      drawnL,
      minutesDrawn: this.#minutes[outlet]!,
      minutesBelowUseC: this.#coldMinutes[outlet]!,
    }
  }
}
