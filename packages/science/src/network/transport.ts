/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { FlowOrder } from './flow-order.ts'
import type { NodeWater } from './node-water.ts'
import { AGE, ENTRY_FROM, ENTRY_TO, type ParcelStore, STOOD, VOLUME_L, WALL_FROM, WALL_TO } from './parcel-store.ts'
import type { PipeRates } from './pipe-rates.ts'
import type { PlaceRecord, Span } from './place-record.ts'
import { EXPOSURE, WATER, WATER_FIELDS, type WaterChange } from './water-change.ts'
import type { WallExposure } from './wall-exposure.ts'

/** Flows below this (L/min) are rest: a drop in a quarter of an hour. */
const REST_L_PER_MIN = 1e-6
const MOVING = -1
/** Parcels finer than this share of a pipe are joined to the one before. */
const FINEST_SHARE = 1 / 48
/** A step's rounding, in minutes. */
const INSTANT = 1e-6
/** Two parcels are one water within these: K, share of the residual, growth, minutes or share of the age, share of the flow. */
const SAME = { kelvin: 0.05, residual: 0.005, growth: 0.002, minutes: 1, age: 0.01, flow: 0.1 }

export interface TransportParts {
  from: Int32Array
  to: Int32Array
  returning: Uint8Array
  rates: PipeRates
  store: ParcelStore
  change: WaterChange
  nodes: NodeWater
  record: PlaceRecord
  order: FlowOrder
  wall: WallExposure
  /** Where 1, no water ever moves: nothing is done. */
  still: Uint8Array
}

/**
 * Moves water through the pipes, step by step. Each step a moving pipe takes in what its upstream node sends and gives out as much
 * at its other end, in the order of arrival; what the water met on the way is worked out as it leaves. A resting pipe is looked at
 * only when a span of the record ends.
 */
export class Transport {
  /** Minutes since which a pipe has been at rest, or MOVING. */
  readonly restSince: Float64Array
  /** Litres × K given to the air. */
  readonly lostLK: Float64Array
  /** Minutes with flow since the day began. */
  readonly movedMinutes: Float64Array
  readonly #of: TransportParts
  readonly #stoodBefore: Float64Array
  readonly #recordedTo: Float64Array
  readonly #lastFlow: Float64Array
  readonly #gone = new Float64Array(WATER_FIELDS)
  readonly #lostAtDawn: Float64Array
  readonly #span: Span = { place: 0, minutes: 0, slot: 0, startC: 0, favour: 0 }

  constructor(of: TransportParts) {
    const pipes = of.from.length
    this.#of = of
    this.restSince = new Float64Array(pipes)
    this.lostLK = new Float64Array(pipes)
    this.movedMinutes = new Float64Array(pipes)
    this.#stoodBefore = new Float64Array(pipes)
    this.#recordedTo = new Float64Array(pipes)
    this.#lastFlow = new Float64Array(pipes)
    this.#lostAtDawn = new Float64Array(pipes)
  }

  /** Begins a new day of `movedMinutes` and `lostToday`. */
  beginDay(): void {
    this.movedMinutes.fill(0)
    this.#lostAtDawn.set(this.lostLK)
  }

  /** Litres × K a pipe's water has given to the air since the day began. */
  lostToday(pipe: number): number {
    return this.lostLK[pipe]! - this.#lostAtDawn[pipe]!
  }

  step({ flows, start, minutes, slot }: { flows: Float64Array; start: number; minutes: number; slot: number }): void {
    const { order, still } = this.#of
    this.#span.slot = slot
    for (const pipe of order.pipes) {
      if (still[pipe] === 1) continue
      const flow = flows[pipe]!
      const rate = Math.abs(flow)
      if (rate < REST_L_PER_MIN) {
        if (this.restSince[pipe] === MOVING) this.restSince[pipe] = start
        continue
      }
      if (this.restSince[pipe] !== MOVING) this.#wake(pipe, start)
      this.#move({ pipe, forward: flow > 0, rate, start, minutes })
    }
  }

  /** Minutes a pipe has stood in all, at a moment not within a rest that has ended. */
  stoodBy(pipe: number, moment: number): number {
    const since = this.restSince[pipe]!
    return this.#stoodBefore[pipe]! + (since === MOVING ? 0 : moment - since)
  }

  /** Records the end of every resting pipe up to a moment; what is at the end is then as it is at that moment. */
  lookAtRest(moment: number, slot: number): void {
    const { still } = this.#of
    this.#span.slot = slot
    for (let pipe = 0; pipe < still.length; pipe++)
      if (still[pipe] === 0 && this.restSince[pipe] !== MOVING) this.#look(pipe, moment)
  }

  /** Temperature that is about to come out of a pipe's downstream end over so many litres, °C; `behindC` is what follows. */
  comingC({ pipe, forward, litres, moment, behindC }: ComingWater): number {
    const { store, change } = this.#of
    const { water, exposure } = change
    const near = forward ? ENTRY_TO : ENTRY_FROM
    const count = store.count[pipe]!
    let left = litres
    let sum = 0
    for (let nth = 0; nth < count && left > 0; nth++) {
      const at = store.at(pipe, forward ? nth : count - 1 - nth)
      const take = Math.min(left, store.data[at + VOLUME_L]!)
      water[WATER.temperature] = store.data[at + AGE + WATER.temperature]!
      exposure[EXPOSURE.spent] = Math.max(0, moment - store.data[at + near]!)
      exposure[EXPOSURE.stood] = Math.min(
        exposure[EXPOSURE.spent]!,
        this.stoodBy(pipe, moment) - store.data[at + STOOD]!,
      )
      sum += take * change.cooledC(pipe)
      left -= take
    }
    return (sum + left * behindC) / litres
  }

  #wake(pipe: number, moment: number): void {
    const rested = moment - this.restSince[pipe]!
    if (moment > this.#recordedTo[pipe]!) this.#look(pipe, moment)
    this.#of.record.rested(pipe, rested)
    this.#stoodBefore[pipe]! += rested
    this.restSince[pipe] = MOVING
  }

  #look(pipe: number, moment: number): void {
    const { store, change, record } = this.#of
    const since = Math.max(this.#recordedTo[pipe]!, this.restSince[pipe]!)
    this.#recordedTo[pipe] = moment
    if (moment <= since || store.count[pipe] === 0) return
    const forward = this.#lastFlow[pipe]! >= 0
    const at = store.at(pipe, forward ? 0 : store.count[pipe]! - 1)
    const { data } = store
    const middle = (data[at + ENTRY_TO]! + data[at + ENTRY_FROM]!) / 2
    // the span may begin before the parcel was last looked at; what it was then is close to what it is now less the span
    const spent = moment - middle
    const startC = this.#expose({ pipe, at, spent, stood: this.stoodBy(pipe, moment) - data[at + STOOD]! })
    this.#keepLooked({ pipe, at, shift: spent, moment })
    const span = this.#span
    span.place = pipe
    span.minutes = moment - since
    span.startC = spent <= span.minutes + 1 ? startC : change.water[WATER.temperature]!
    span.favour = change.favour(change.water[WATER.temperature]!, change.water[WATER.residual]!)
    record.add(span, change.water)
  }

  /** Takes a whole parcel in hand and lets it stay so long; answers the temperature it had before, °C. */
  #expose({ pipe, at, spent, stood }: { pipe: number; at: number; spent: number; stood: number }): number {
    const { store, change, wall } = this.#of
    const { data } = store
    const { water, exposure } = change
    for (let field = 0; field < WATER_FIELDS; field++) water[field] = data[at + AGE + field]!
    const startC = water[WATER.temperature]!
    exposure[EXPOSURE.spent] = spent
    exposure[EXPOSURE.stood] = Math.min(Math.max(stood, 0), spent)
    exposure[EXPOSURE.wall] = Math.max(0, wall.met[pipe]! - (data[at + WALL_TO]! + data[at + WALL_FROM]!) / 2)
    change.stay(pipe)
    this.lostLK[pipe]! += data[at + VOLUME_L]! * (startC - water[WATER.temperature]!)
    return startC
  }

  #keepLooked({ pipe, at, shift, moment }: { pipe: number; at: number; shift: number; moment: number }): void {
    const { store, change, wall } = this.#of
    const { data } = store
    for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = change.water[field]!
    data[at + ENTRY_TO]! += shift
    data[at + ENTRY_FROM]! += shift
    const wallShift = wall.met[pipe]! - (data[at + WALL_TO]! + data[at + WALL_FROM]!) / 2
    data[at + WALL_TO]! += wallShift
    data[at + WALL_FROM]! += wallShift
    data[at + STOOD] = this.stoodBy(pipe, moment)
  }

  #move(moving: Moving): void {
    const { nodes, record, change, wall } = this.#of
    const { pipe, forward, rate, start, minutes } = moving
    this.#lastFlow[pipe] = forward ? rate : -rate
    this.#recordedTo[pipe] = start + minutes
    this.movedMinutes[pipe]! += minutes
    const wallRate = wall.perMinute(pipe, rate)
    const upstream = forward ? this.#of.from[pipe]! : this.#of.to[pipe]!
    this.#push(moving, { sent: nodes.sentBy(upstream), wallRate })
    const litres = this.#pop(moving, wallRate)
    wall.met[pipe]! += wallRate * minutes
    const gone = this.#gone
    nodes.bring(
      { node: forward ? this.#of.to[pipe]! : this.#of.from[pipe]!, litres, back: this.#of.returning[pipe]! },
      gone,
    )
    for (let field = 0; field < WATER_FIELDS; field++) gone[field]! /= litres
    const span = this.#span
    span.place = pipe
    span.minutes = minutes
    span.startC = gone[WATER.temperature]!
    span.favour = change.favour(gone[WATER.temperature]!, gone[WATER.residual]!)
    record.add(span, gone)
  }

  #push({ pipe, forward, rate, start, minutes }: Moving, { sent, wallRate }: { sent: number; wallRate: number }): void {
    const { store, nodes, wall } = this.#of
    const litres = rate * minutes
    const water = nodes.sent
    const near = forward ? ENTRY_TO : ENTRY_FROM
    const far = forward ? ENTRY_FROM : ENTRY_TO
    const nearWall = forward ? WALL_TO : WALL_FROM
    const farWall = forward ? WALL_FROM : WALL_TO
    const count = store.count[pipe]!
    const last = count === 0 ? -1 : store.at(pipe, forward ? count - 1 : 0)
    if (last >= 0 && this.#joins({ last, pipe, litres, rate, start, far, near }, sent)) {
      const { data } = store
      const before = data[last + VOLUME_L]!
      const share = litres / (before + litres)
      for (let field = 0; field < WATER_FIELDS; field++)
        data[last + AGE + field]! += share * (water[sent + field]! - data[last + AGE + field]!)
      data[last + VOLUME_L] = before + litres
      data[last + STOOD]! += share * (this.#stoodBefore[pipe]! - data[last + STOOD]!)
      data[last + far] = start + minutes
      data[last + farWall] = wall.met[pipe]! + wallRate * minutes
      return
    }
    const at = forward ? store.addFrom(pipe) : store.addTo(pipe)
    const { data } = store
    data[at + VOLUME_L] = litres
    data[at + near] = start
    data[at + far] = start + minutes
    data[at + STOOD] = this.#stoodBefore[pipe]!
    data[at + nearWall] = wall.met[pipe]!
    data[at + farWall] = wall.met[pipe]! + wallRate * minutes
    for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = water[sent + field]!
  }

  /** True where what comes in is one water with the last parcel, or too little beside the pipe to be told apart. */
  #joins({ last, pipe, litres, rate, start, far, near }: Joining, sent: number): boolean {
    const { store, nodes, rates } = this.#of
    const { data } = store
    const water = nodes.sent
    const volumeL = data[last + VOLUME_L]!
    const finest = rates.volumeL[pipe]! * FINEST_SHARE
    if (volumeL + litres > 2 * finest) return false
    if (volumeL < finest && store.count[pipe]! > 1 / FINEST_SHARE) return true
    const span = data[last + far]! - data[last + near]!
    if (Math.abs(data[last + far]! - start) > INSTANT || Math.abs(volumeL / span - rate) > SAME.flow * rate)
      return false
    const row = last + AGE
    const age = data[row + WATER.age]!
    return (
      Math.abs(data[row + WATER.temperature]! - water[sent + WATER.temperature]!) <= SAME.kelvin &&
      Math.abs(data[row + WATER.residual]! - water[sent + WATER.residual]!) <=
        SAME.residual * data[row + WATER.residual]! &&
      Math.abs(data[row + WATER.growth]! - water[sent + WATER.growth]!) <= SAME.growth &&
      Math.abs(age - water[sent + WATER.age]!) <= Math.max(SAME.minutes, SAME.age * age)
    )
  }

  /** Lets a step's litres out; sums of volume × quantity are in `#gone`. Answers the litres. */
  #pop({ pipe, forward, rate, start, minutes }: Moving, wallRate: number): number {
    const { store, change, wall } = this.#of
    const { water, exposure } = change
    const gone = this.#gone
    gone.fill(0)
    const near = forward ? ENTRY_TO : ENTRY_FROM
    const far = forward ? ENTRY_FROM : ENTRY_TO
    const nearWall = forward ? WALL_TO : WALL_FROM
    const farWall = forward ? WALL_FROM : WALL_TO
    const stood = this.#stoodBefore[pipe]!
    const litres = rate * minutes
    let lost = 0
    let passed = 0
    while (passed < litres && store.count[pipe]! > 0) {
      const at = store.at(pipe, forward ? 0 : store.count[pipe]! - 1)
      const { data } = store
      const volumeL = data[at + VOLUME_L]!
      const left = litres - passed
      const whole = volumeL <= left * (1 + 1e-12)
      const take = whole ? volumeL : left
      const share = take / volumeL
      const entered = data[at + near]! + ((data[at + far]! - data[at + near]!) * share) / 2
      const metWall = data[at + nearWall]! + ((data[at + farWall]! - data[at + nearWall]!) * share) / 2
      const wait = ((passed + take / 2) / litres) * minutes
      const spent = Math.max(0, start + wait - entered)
      for (let field = 0; field < WATER_FIELDS; field++) water[field] = data[at + AGE + field]!
      const startC = water[WATER.temperature]!
      exposure[EXPOSURE.spent] = spent
      exposure[EXPOSURE.stood] = Math.min(Math.max(stood - data[at + STOOD]!, 0), spent)
      exposure[EXPOSURE.wall] = Math.max(0, wall.met[pipe]! + wallRate * wait - metWall)
      change.stay(pipe)
      lost += take * (startC - water[WATER.temperature]!)
      for (let field = 0; field < WATER_FIELDS; field++) gone[field]! += take * water[field]!
      if (whole) {
        if (forward) store.dropTo(pipe)
        else store.dropFrom(pipe)
      } else {
        data[at + VOLUME_L] = volumeL - take
        data[at + near]! += (data[at + far]! - data[at + near]!) * share
        data[at + nearWall]! += (data[at + farWall]! - data[at + nearWall]!) * share
      }
      passed += take
    }
    this.lostLK[pipe]! += lost
    return passed
  }
}

interface Moving {
  pipe: number
  forward: boolean
  rate: number
  start: number
  minutes: number
}

interface Joining {
  last: number
  pipe: number
  litres: number
  rate: number
  start: number
  far: number
  near: number
}

export interface ComingWater {
  pipe: number
  forward: boolean
  litres: number
  moment: number
  behindC: number
}
