/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import settings from '@rillmark/reference/network/simulation.json' with { type: 'json' }
import type { PlaceDay, Spread } from './day-result.ts'
import { growthIndexOf } from './growth.ts'
import type { Quantity } from './network.ts'
import { QUANTITIES } from './network.ts'
import { WATER, WATER_FIELDS } from './water-change.ts'

const MINUTES_PER_HOUR = 60
const HOURS_PER_DAY = 24
const LOWER_C = settings.figures.bandLower.value
const UPPER_C = settings.figures.bandUpper.value

/** Curves of some rows, one for each quantity carried: index row · slots + slot, in the units of the water (minutes). */
export interface Curves {
  slots: number
  minutesASlot: number
  of: Record<Quantity, Float32Array>
}

/** Places in a span: its minutes, the minute of the day at which it ends, °C at its start, favour of growth at its end. */
export const SPAN = { minutes: 0, end: 1, startC: 2, favour: 3 } as const
export const SPAN_FIELDS = 4

/** Columns of a place's row: sums by minutes, then the least and the greatest of what has extremes. */
const MINUTES = 0
const FAVOUR = 1
const BAND = 2
const SUMS = 3
const LEAST = SUMS + WATER_FIELDS
const GREATEST = LEAST + WATER_FIELDS
const COLUMNS = GREATEST + WATER_FIELDS

/** The day of many places, weighted by time: sums, least and greatest of each quantity, hours in the band of growth. */
export class PlaceRecord {
  readonly places: number
  readonly #rows: Float64Array
  readonly #longestRest: Float64Array
  readonly curves: Curves | undefined

  constructor(places: number, slots = 0) {
    this.places = places
    this.#rows = new Float64Array(places * COLUMNS)
    this.#longestRest = new Float64Array(places)
    this.curves = slots === 0 ? undefined : emptyCurves(places, slots)
    this.begin()
  }

  /** Begins a new day. */
  begin(): void {
    this.#rows.fill(0)
    for (let row = 0; row < this.#rows.length; row += COLUMNS) {
      this.#rows.fill(Number.POSITIVE_INFINITY, row + LEAST, row + GREATEST)
      this.#rows.fill(Number.NEGATIVE_INFINITY, row + GREATEST, row + COLUMNS)
    }
    this.#longestRest.fill(0)
    if (this.curves !== undefined) for (const curve of Object.values(this.curves.of)) curve.fill(0)
  }

  /** Adds a span in which the water there was `mean`, and at its end `last`. */
  add(place: number, span: Float64Array, mean: Float64Array, last: Float64Array): void {
    const rows = this.#rows
    const minutes = span[SPAN.minutes]!
    const row = place * COLUMNS
    rows[row + MINUTES]! += minutes
    rows[row + FAVOUR]! += minutes * span[SPAN.favour]!
    const startC = span[SPAN.startC]!
    const endC = last[WATER.temperature]!
    rows[row + BAND]! += minutes * shareInBand(startC, endC)
    for (let field = 0; field < WATER_FIELDS; field++) {
      const value = last[field]!
      rows[row + SUMS + field]! += minutes * mean[field]!
      if (value < rows[row + LEAST + field]!) rows[row + LEAST + field] = value
      if (value > rows[row + GREATEST + field]!) rows[row + GREATEST + field] = value
    }
    if (this.curves !== undefined) this.#draw(place, span, mean)
  }

  /** Adds a span in which the water there was the same throughout. */
  addEven(place: number, span: Float64Array, water: Float64Array): void {
    const rows = this.#rows
    const minutes = span[SPAN.minutes]!
    const row = place * COLUMNS
    const temperatureC = water[WATER.temperature]!
    rows[row + MINUTES]! += minutes
    rows[row + FAVOUR]! += minutes * span[SPAN.favour]!
    if (temperatureC >= LOWER_C && temperatureC <= UPPER_C) rows[row + BAND]! += minutes
    for (let field = 0; field < WATER_FIELDS; field++) {
      const value = water[field]!
      rows[row + SUMS + field]! += minutes * value
      if (value < rows[row + LEAST + field]!) rows[row + LEAST + field] = value
      if (value > rows[row + GREATEST + field]!) rows[row + GREATEST + field] = value
    }
    if (this.curves !== undefined) this.#draw(place, span, water)
  }

  /** Water that was there for a moment counts among the extremes. */
  touch(place: number, water: Float64Array): void {
    const rows = this.#rows
    const row = place * COLUMNS
    for (let field = 0; field < WATER_FIELDS; field++) {
      const value = water[field]!
      if (value < rows[row + LEAST + field]!) rows[row + LEAST + field] = value
      if (value > rows[row + GREATEST + field]!) rows[row + GREATEST + field] = value
    }
  }

  rested(place: number, minutes: number): void {
    if (minutes > this.#longestRest[place]!) this.#longestRest[place] = minutes
  }

  /** Mean over the day of one field of the water, in its own unit. */
  meanOf(place: number, field: number): number {
    return this.#rows[place * COLUMNS + SUMS + field]! / this.#rows[place * COLUMNS + MINUTES]!
  }

  dayOf(place: number): PlaceDay {
    const row = place * COLUMNS
    const minutes = this.#rows[row + MINUTES]!
    const spread = (field: number, per: number): Spread => ({
      mean: this.meanOf(place, field) / per,
      min: this.#rows[row + LEAST + field]! / per,
      max: this.#rows[row + GREATEST + field]! / per,
    })
    const longestStagnationHours = Math.min(this.#longestRest[place]! / MINUTES_PER_HOUR, HOURS_PER_DAY)
    return {
      ageHours: spread(WATER.age, MINUTES_PER_HOUR),
      temperatureC: spread(WATER.temperature, 1),
      residualMgPerL: spread(WATER.residual, 1),
      standingHours: spread(WATER.standing, MINUTES_PER_HOUR),
      hoursInGrowthBand: (HOURS_PER_DAY * this.#rows[row + BAND]!) / minutes,
      longestStagnationHours,
      growthIndex: growthIndexOf({
        meanGrowth: this.meanOf(place, WATER.growth),
        meanFavour: this.#rows[row + FAVOUR]! / minutes,
        longestStagnationHours,
      }),
      neverMoves: false,
    }
  }

  /** Adds to the curves; a span of rest may reach over several of their slots. */
  #draw(place: number, span: Float64Array, water: Float64Array): void {
    const { slots, minutesASlot, of } = this.curves!
    const end = span[SPAN.end]!
    const start = Math.max(0, end - span[SPAN.minutes]!)
    for (let slot = Math.floor(start / minutesASlot); slot < slots && slot * minutesASlot < end; slot++) {
      const within = Math.min(end, (slot + 1) * minutesASlot) - Math.max(start, slot * minutesASlot)
      const share = within / minutesASlot
      const at = place * slots + slot
      of.ageHours[at]! += (share * water[WATER.age]!) / MINUTES_PER_HOUR
      of.temperatureC[at]! += share * water[WATER.temperature]!
      of.residualMgPerL[at]! += share * water[WATER.residual]!
      of.growth[at]! += share * water[WATER.growth]!
      of.standingHours[at]! += (share * water[WATER.standing]!) / MINUTES_PER_HOUR
    }
  }
}

/** Share of a span in the band of growth, the temperature going straight from one to the other (°C). */
function shareInBand(fromC: number, toC: number): number {
  const low = Math.min(fromC, toC)
  const high = Math.max(fromC, toC)
  if (high < LOWER_C || low > UPPER_C) return 0
  if (high - low < 1e-9) return 1
  return (Math.min(high, UPPER_C) - Math.max(low, LOWER_C)) / (high - low)
}

const MINUTES_PER_DAY = 1440

function emptyCurves(places: number, slots: number): Curves {
  const curve = (): [Quantity, Float32Array][] => QUANTITIES.map((name) => [name, new Float32Array(places * slots)])
  return { slots, minutesASlot: MINUTES_PER_DAY / slots, of: Object.fromEntries(curve()) as Curves['of'] }
}
