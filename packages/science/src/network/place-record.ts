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

/** What a span of time adds to the record of a place. */
export interface Span {
  place: number
  /** Minutes, and the slot of the day they lie in. */
  minutes: number
  slot: number
  /** Temperature at the start of the span; at its end it is the water's. */
  startC: number
  favour: number
}

/** The day of many places, weighted by time: sums, least and greatest of each quantity, hours in the band of growth. */
export class PlaceRecord {
  readonly minutes: Float64Array
  readonly sums: Float64Array
  readonly least: Float64Array
  readonly greatest: Float64Array
  readonly favour: Float64Array
  readonly bandMinutes: Float64Array
  readonly longestRest: Float64Array
  readonly curves: Curves | undefined

  constructor(places: number, slots = 0) {
    this.minutes = new Float64Array(places)
    this.sums = new Float64Array(places * WATER_FIELDS)
    this.least = new Float64Array(places * WATER_FIELDS)
    this.greatest = new Float64Array(places * WATER_FIELDS)
    this.favour = new Float64Array(places)
    this.bandMinutes = new Float64Array(places)
    this.longestRest = new Float64Array(places)
    this.curves = slots === 0 ? undefined : emptyCurves(places, slots)
    this.begin()
  }

  /** Begins a new day. */
  begin(): void {
    this.minutes.fill(0)
    this.sums.fill(0)
    this.least.fill(Number.POSITIVE_INFINITY)
    this.greatest.fill(Number.NEGATIVE_INFINITY)
    this.favour.fill(0)
    this.bandMinutes.fill(0)
    this.longestRest.fill(0)
    if (this.curves !== undefined) for (const curve of Object.values(this.curves.of)) curve.fill(0)
  }

  /** Adds a span in which the water there was as `water`. */
  add({ place, minutes, slot, startC, favour }: Span, water: Float64Array): void {
    this.minutes[place]! += minutes
    const row = place * WATER_FIELDS
    for (let field = 0; field < WATER_FIELDS; field++) {
      const value = water[field]!
      this.sums[row + field]! += minutes * value
      if (value < this.least[row + field]!) this.least[row + field] = value
      if (value > this.greatest[row + field]!) this.greatest[row + field] = value
    }
    this.favour[place]! += minutes * favour
    this.bandMinutes[place]! += minutes * shareInBand(startC, water[WATER.temperature]!)
    if (this.curves !== undefined) this.#draw({ place, minutes, slot }, water)
  }

  rested(place: number, minutes: number): void {
    if (minutes > this.longestRest[place]!) this.longestRest[place] = minutes
  }

  /** Mean over the day of one field of the water, in its own unit. */
  meanOf(place: number, field: number): number {
    return this.sums[place * WATER_FIELDS + field]! / this.minutes[place]!
  }

  dayOf(place: number): PlaceDay {
    const minutes = this.minutes[place]!
    const spread = (field: number, per: number): Spread => ({
      mean: this.meanOf(place, field) / per,
      min: this.least[place * WATER_FIELDS + field]! / per,
      max: this.greatest[place * WATER_FIELDS + field]! / per,
    })
    const longestStagnationHours = Math.min(this.longestRest[place]! / MINUTES_PER_HOUR, HOURS_PER_DAY)
    return {
      ageHours: spread(WATER.age, MINUTES_PER_HOUR),
      temperatureC: spread(WATER.temperature, 1),
      residualMgPerL: spread(WATER.residual, 1),
      standingHours: spread(WATER.standing, MINUTES_PER_HOUR),
      hoursInGrowthBand: (HOURS_PER_DAY * this.bandMinutes[place]!) / minutes,
      longestStagnationHours,
      growthIndex: growthIndexOf({
        meanGrowth: this.meanOf(place, WATER.growth),
        meanFavour: this.favour[place]! / minutes,
        longestStagnationHours,
      }),
      neverMoves: false,
    }
  }

  #draw({ place, minutes, slot }: Omit<Span, 'startC' | 'favour'>, water: Float64Array): void {
    const { slots, minutesASlot, of } = this.curves!
    const at = place * slots + slot
    const share = minutes / minutesASlot
    of.ageHours[at]! += (share * water[WATER.age]!) / MINUTES_PER_HOUR
    of.temperatureC[at]! += share * water[WATER.temperature]!
    of.residualMgPerL[at]! += share * water[WATER.residual]!
    of.growth[at]! += share * water[WATER.growth]!
    of.standingHours[at]! += (share * water[WATER.standing]!) / MINUTES_PER_HOUR
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
