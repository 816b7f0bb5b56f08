/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { REST_L_PER_MIN } from './flow-order.ts'
import { AGE, ENTRY_FROM, ENTRY_TO, type ParcelStore, STOOD, VOLUME_L, WALL_FROM, WALL_TO } from './parcel-store.ts'
import { COLUMNS, FORWARD, LINKS, LOST_LK, MOVING, REST_SINCE, RESTED, STOOD_BEFORE } from './pipe-row.ts'
import { type PlaceRecord, SPAN, SPAN_FIELDS } from './place-record.ts'
import { positive } from './positive.ts'
import type { WallExposure } from './wall-exposure.ts'
import { EXPOSURE, WATER, WATER_FIELDS, type WaterChange } from './water-change.ts'

const MINUTES_PER_DAY = 1440
/** Water that came in so little before its pipe came to rest is taken as having stood since then, in heat and decay; minutes. */
const BRIEF_MINUTES = 1
/** A step's rounding, in minutes. */
const INSTANT = 1e-6
/** Rest is worked out in spans in which water changes by about this many K, within these limits. */
const SPANS = { changeK: 2, leastMinutes: 15, mostMinutes: 120 }

/** What a rest is worked out with: its first and last minute; minutes that its water moved before and that go with its first span. */
const NOW = { start: 0, end: 1, before: 2 } as const

export interface RestingParts {
  store: ParcelStore
  change: WaterChange
  record: PlaceRecord
  wall: WallExposure
  /** Where 1, no water has moved for a day: nothing is done until it does. */
  still: Uint8Array
}

/** Which pipes rest since when, and what becomes of the water that stands at their ends: worked out when they run again, or at the end of a day. */
export class RestingWater {
  readonly #of: RestingParts
  readonly #rows: Float64Array
  readonly #links: Int32Array
  readonly #mean = new Float64Array(WATER_FIELDS)
  readonly #span = new Float64Array(SPAN_FIELDS)
  readonly #now = new Float64Array(3)
  #dawn = 0

  /** `rows` and `links` as in `pipe-row.ts`, kept together with who moves the water. */
  constructor(of: RestingParts, { rows, links }: { rows: Float64Array; links: Int32Array }) {
    this.#of = of
    this.#rows = rows
    this.#links = links
    for (let row = 0; row < rows.length; row += COLUMNS) rows[row + REST_SINCE] = MOVING
  }

  /** Begins a new day of `movedMinutes` at a moment (minutes). */
  beginDay(moment: number): void {
    this.#dawn = moment
    for (let row = 0; row < this.#rows.length; row += COLUMNS) this.#rows[row + RESTED] = 0
  }

  /** Of a day that has ended: minutes with flow. */
  movedMinutes(pipe: number): number {
    return MINUTES_PER_DAY - this.#rows[pipe * COLUMNS + RESTED]!
  }

  /** Of the pipes whose flow changed at a moment, those that come to rest. */
  rest(flows: Float64Array, { changed, moment }: { changed: Int32Array; moment: number }): void {
    const rows = this.#rows
    for (let at = 0; at < changed.length; at++) {
      const pipe = changed[at]!
      const flow = flows[pipe]!
      if (flow > REST_L_PER_MIN || flow < -REST_L_PER_MIN) continue
      if (rows[pipe * COLUMNS + REST_SINCE] === MOVING) rows[pipe * COLUMNS + REST_SINCE] = moment
    }
  }

  /** Records what still rests up to the end of a day. A pipe that rested all day is taken to be still until it runs. */
  endDay(moment: number): void {
    const { still } = this.#of
    for (let pipe = 0; pipe < still.length; pipe++) {
      if (this.#rows[pipe * COLUMNS + REST_SINCE] === MOVING || still[pipe] === 1) continue
      this.#recordRest(pipe, moment)
      if (this.movedMinutes(pipe) === 0) still[pipe] = 1
    }
  }

  /** Minutes a pipe has stood in all. */
  stoodBy(pipe: number, moment: number): number {
    const since = this.#rows[pipe * COLUMNS + REST_SINCE]!
    return this.#rows[pipe * COLUMNS + STOOD_BEFORE]! + (since === MOVING ? 0 : moment - since)
  }

  /** Ends a rest at a moment. */
  wake(pipe: number, moment: number): void {
    this.#recordRest(pipe, moment)
    const rows = this.#rows
    const row = pipe * COLUMNS
    rows[row + STOOD_BEFORE]! += moment - rows[row + REST_SINCE]!
    rows[row + REST_SINCE] = MOVING
  }

  /** Lets the water at the end of a resting pipe stand until a moment, span by span, and records it. */
  #recordRest(pipe: number, moment: number): void {
    const { store, change, wall, record } = this.#of
    const rows = this.#rows
    const row = pipe * COLUMNS
    const began = rows[row + REST_SINCE]!
    const since = began > this.#dawn ? began : this.#dawn
    record.rested(pipe, moment - began)
    if (moment <= since || store.count[pipe] === 0) return
    rows[row + RESTED]! += moment - since
    const at = store.at(pipe, this.#links[pipe * LINKS + FORWARD] === 1 ? 0 : store.count[pipe]! - 1)
    const { data } = store
    const now = this.#now
    now[NOW.start] = since
    now[NOW.end] = moment
    this.#takeInHand(pipe, at)
    record.touch(pipe, change.water)
    while (now[NOW.start]! < moment) this.#stand(pipe)
    const { water } = change
    rows[row + LOST_LK]! += data[at + VOLUME_L]! * (data[at + AGE + WATER.temperature]! - water[WATER.temperature]!)
    for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = water[field]!
    const shift = moment - (data[at + ENTRY_TO]! + data[at + ENTRY_FROM]!) / 2
    data[at + ENTRY_TO]! += shift
    data[at + ENTRY_FROM]! += shift
    const wallShift = wall.metIn(pipe) - (data[at + WALL_TO]! + data[at + WALL_FROM]!) / 2
    data[at + WALL_TO]! += wallShift
    data[at + WALL_FROM]! += wallShift
    data[at + STOOD] = this.stoodBy(pipe, moment)
  }

  /** The water of a parcel as it is when the rest in hand begins. */
  #takeInHand(pipe: number, at: number): void {
    const { store, change, wall } = this.#of
    const since = this.#now[NOW.start]!
    const { data } = store
    const { water, exposure } = change
    for (let field = 0; field < WATER_FIELDS; field++) water[field] = data[at + AGE + field]!
    const spent = since - (data[at + ENTRY_TO]! + data[at + ENTRY_FROM]!) / 2
    this.#now[NOW.before] = 0
    if (spent < INSTANT) return
    if (spent < BRIEF_MINUTES) {
      this.#now[NOW.before] = spent
      return
    }
    exposure[EXPOSURE.spent] = spent
    exposure[EXPOSURE.stood] = Math.min(positive(this.stoodBy(pipe, since) - data[at + STOOD]!), spent)
    exposure[EXPOSURE.wall] = positive(wall.metIn(pipe) - (data[at + WALL_TO]! + data[at + WALL_FROM]!) / 2)
    change.stay(pipe)
  }

  /** One span of the rest in hand, recorded; the rest begins later by as much. */
  #stand(pipe: number): void {
    const { change, record } = this.#of
    const { water } = change
    const now = this.#now
    const span = this.#span
    const mean = this.#mean
    const wanted = change.standingMinutes(pipe, SPANS.changeK)
    const most = Math.min(SPANS.mostMinutes, Math.max(SPANS.leastMinutes, wanted))
    const left = now[NOW.end]! - now[NOW.start]!
    // near its end, what is left is shared out evenly
    const minutes = left <= most ? left : left < 2 * most ? left / 2 : most
    now[NOW.start] = left <= most ? now[NOW.end]! : now[NOW.start]! + minutes
    for (let field = 0; field < WATER_FIELDS; field++) mean[field] = water[field]!
    const before = now[NOW.before]!
    change.stand(pipe, minutes + before)
    if (before > 0) {
      water[WATER.standing]! -= before
      now[NOW.before] = 0
    }
    span[SPAN.minutes] = minutes
    span[SPAN.end] = now[NOW.start]! - this.#dawn
    span[SPAN.startC] = mean[WATER.temperature]!
    span[SPAN.favour] = change.favour(water[WATER.temperature]!, water[WATER.residual]!)
    for (let field = 0; field < WATER_FIELDS; field++) mean[field] = (mean[field]! + water[field]!) * 0.5
    record.add(pipe, span, mean, water)
  }
}
