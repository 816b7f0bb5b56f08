/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { type FlowOrder, REST_L_PER_MIN } from './flow-order.ts'
import type { NodeWater } from './node-water.ts'
import { AGE, ENTRY_FROM, ENTRY_TO, type ParcelStore, STOOD, VOLUME_L, WALL_FROM, WALL_TO } from './parcel-store.ts'
import type { PipeRates } from './pipe-rates.ts'
import { type PlaceRecord, SPAN, SPAN_FIELDS } from './place-record.ts'
import type { WallExposure } from './wall-exposure.ts'
import { EXPOSURE, WATER, WATER_FIELDS, type WaterChange } from './water-change.ts'

const MINUTES_PER_DAY = 1440
const MOVING = -1
/** Parcels finer than this share of a pipe are joined to the one before. */
const FINEST_SHARE = 1 / 48
/** From the time at which a face came in to the reading of the wall's clock, in a parcel's row. */
const TO_WALL = WALL_TO - ENTRY_TO
/** A step's rounding, in minutes. */
const INSTANT = 1e-6
/** Two parcels are one water within these: K, share of the residual, growth, minutes or share of the age, share of the flow. */
const SAME = { kelvin: 0.05, residual: 0.005, growth: 0.002, minutes: 1, age: 0.01, flow: 0.1 }
/** What a step or a move is worked out with: minutes, L/min, decay times a minute at the wall, L. */
const NOW = { start: 0, minutes: 1, rate: 2, wallRate: 3, litres: 4 } as const
/** Parcels that leave together are worked out together where their times in the pipe are this near: minutes, or share. */
const ALIKE_MINUTES = 3
const ALIKE_SHARE = 0.05
/** A resting pipe is let be until its water has changed by about this many K, within these limits. */
const LOOKS = { changeK: 2, leastMinutes: 15, mostMinutes: 120 }

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
 * now and then, more often the faster its water changes.
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
  readonly #nextLook: Float64Array
  readonly #forward: Uint8Array
  readonly #lostAtDawn: Float64Array
  /** What left a pipe: sums of volume × quantity, then the litres. */
  readonly #gone = new Float64Array(WATER_FIELDS + 1)
  readonly #span = new Float64Array(SPAN_FIELDS)
  readonly #now = new Float64Array(5)
  #dawn = 0

  constructor(of: TransportParts) {
    const pipes = of.from.length
    this.#of = of
    this.restSince = new Float64Array(pipes).fill(MOVING)
    this.lostLK = new Float64Array(pipes)
    this.movedMinutes = new Float64Array(pipes)
    this.#stoodBefore = new Float64Array(pipes)
    this.#recordedTo = new Float64Array(pipes)
    this.#nextLook = new Float64Array(pipes)
    this.#forward = new Uint8Array(pipes).fill(1)
    this.#lostAtDawn = new Float64Array(pipes)
  }

  /** Begins a new day of `movedMinutes` and `lostToday` at a moment (minutes). */
  beginDay(moment: number): void {
    this.#dawn = moment
    this.movedMinutes.fill(0)
    this.#lostAtDawn.set(this.lostLK)
  }

  /** Litres × K a pipe's water has given to the air since the day began. */
  lostToday(pipe: number): number {
    return this.lostLK[pipe]! - this.#lostAtDawn[pipe]!
  }

  /** Of the pipes whose flow changed at a moment, those that come to rest. */
  rest(flows: Float64Array, { changed, moment }: { changed: Int32Array; moment: number }): void {
    for (const pipe of changed) {
      const flow = flows[pipe]!
      if (flow > REST_L_PER_MIN || flow < -REST_L_PER_MIN || this.restSince[pipe] !== MOVING) continue
      this.restSince[pipe] = moment
      this.#nextLook[pipe] = moment + LOOKS.leastMinutes
    }
  }

  /** One step of `minutes` from `start`, with these flows. */
  step(flows: Float64Array, { start, minutes }: { start: number; minutes: number }): void {
    const { still, order } = this.#of
    const { pipes, running } = order
    const now = this.#now
    now[NOW.start] = start
    now[NOW.minutes] = minutes
    for (let place = 0; place < pipes.length; place++) {
      if (running[place] === 0) continue
      const pipe = pipes[place]!
      if (still[pipe] === 1) continue
      const flow = flows[pipe]!
      if (this.restSince[pipe] !== MOVING) this.#wake(pipe, start)
      now[NOW.rate] = flow > 0 ? flow : -flow
      this.#move(pipe, flow > 0)
    }
  }

  /** Records the end of resting pipes up to a moment where it is time to; of all at the end of a day. */
  lookAtRest(moment: number): void {
    const { still } = this.#of
    const all = moment === this.#dawn + MINUTES_PER_DAY
    for (let pipe = 0; pipe < still.length; pipe++)
      if ((all || moment >= this.#nextLook[pipe]!) && this.restSince[pipe] !== MOVING && still[pipe] === 0)
        this.#look(pipe, moment)
  }

  /** Temperature of the next litres to come out of a pipe's downstream end, °C; `behindC` is what follows its own. */
  comingC({ pipe, forward, litres, moment, behindC }: ComingWater): number {
    const { store, change } = this.#of
    const near = forward ? ENTRY_TO : ENTRY_FROM
    const count = store.count[pipe]!
    let left = litres
    let sum = 0
    for (let nth = 0; nth < count && left > 0; nth++) {
      const at = store.at(pipe, forward ? nth : count - 1 - nth)
      const take = Math.min(left, store.data[at + VOLUME_L]!)
      change.water[WATER.temperature] = store.data[at + AGE + WATER.temperature]!
      const spent = Math.max(0, moment - store.data[at + near]!)
      change.exposure[EXPOSURE.spent] = spent
      change.exposure[EXPOSURE.stood] = Math.min(
        spent,
        Math.max(0, this.stoodBy(pipe, moment) - store.data[at + STOOD]!),
      )
      sum += take * change.cooledC(pipe)
      left -= take
    }
    return (sum + left * behindC) / litres
  }

  /** Minutes a pipe has stood in all. */
  stoodBy(pipe: number, moment: number): number {
    const since = this.restSince[pipe]!
    return this.#stoodBefore[pipe]! + (since === MOVING ? 0 : moment - since)
  }

  #wake(pipe: number, moment: number): void {
    const rested = moment - this.restSince[pipe]!
    if (moment > this.#recordedTo[pipe]!) this.#look(pipe, moment)
    this.#of.record.rested(pipe, rested)
    this.#stoodBefore[pipe]! += rested
    this.restSince[pipe] = MOVING
  }

  /** Records the water at the end of a resting pipe since it was last recorded. */
  #look(pipe: number, moment: number): void {
    const { store, change, record } = this.#of
    const since = Math.max(this.#recordedTo[pipe]!, this.#dawn)
    this.#recordedTo[pipe] = moment
    if (moment <= since || store.count[pipe] === 0) return
    const at = store.at(pipe, this.#forward[pipe] === 1 ? 0 : store.count[pipe]! - 1)
    const { data } = store
    if ((data[at + ENTRY_TO]! + data[at + ENTRY_FROM]!) / 2 < since - INSTANT) this.#keepUntil(pipe, at, since)
    const gone = this.#gone
    for (let field = 0; field < WATER_FIELDS; field++) gone[field] = data[at + AGE + field]!
    this.#keepUntil(pipe, at, moment)
    const { water } = change
    const span = this.#span
    span[SPAN.minutes] = moment - since
    span[SPAN.end] = moment - this.#dawn
    span[SPAN.startC] = gone[WATER.temperature]!
    span[SPAN.favour] = change.favour(water[WATER.temperature]!, water[WATER.residual]!)
    for (let field = 0; field < WATER_FIELDS; field++) gone[field] = (gone[field]! + water[field]!) / 2
    record.add(pipe, span, gone, water)
    const changedK = Math.abs(water[WATER.temperature]! - span[SPAN.startC]!) + 1e-9
    const wait = (LOOKS.changeK * span[SPAN.minutes]!) / changedK
    this.#nextLook[pipe] = moment + Math.min(LOOKS.mostMinutes, Math.max(LOOKS.leastMinutes, wait))
  }

  /** Lets a whole parcel of a resting pipe stay until a moment, and keeps it as it then is. */
  #keepUntil(pipe: number, at: number, moment: number): void {
    const { store, change, wall } = this.#of
    const { data } = store
    const { water } = change
    const shift = moment - (data[at + ENTRY_TO]! + data[at + ENTRY_FROM]!) / 2
    const wallShift = wall.met[pipe]! - (data[at + WALL_TO]! + data[at + WALL_FROM]!) / 2
    const stoodBy = this.stoodBy(pipe, moment)
    for (let field = 0; field < WATER_FIELDS; field++) water[field] = data[at + AGE + field]!
    const stood = Math.min(Math.max(stoodBy - data[at + STOOD]!, 0), Math.max(shift, 0))
    change.exposure[EXPOSURE.spent] = Math.max(shift, 0)
    change.exposure[EXPOSURE.stood] = stood
    change.exposure[EXPOSURE.wall] = Math.max(wallShift, 0)
    change.stay(pipe)
    this.lostLK[pipe]! += data[at + VOLUME_L]! * (data[at + AGE + WATER.temperature]! - water[WATER.temperature]!)
    for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = water[field]!
    data[at + ENTRY_TO]! += shift
    data[at + ENTRY_FROM]! += shift
    data[at + WALL_TO]! += wallShift
    data[at + WALL_FROM]! += wallShift
    data[at + STOOD] = stoodBy
  }

  #move(pipe: number, forward: boolean): void {
    const { nodes, wall, from, to, returning } = this.#of
    const now = this.#now
    const rate = now[NOW.rate]!
    const minutes = now[NOW.minutes]!
    now[NOW.wallRate] = wall.perMinute(pipe, rate)
    now[NOW.litres] = rate * minutes
    this.#push(pipe, forward, nodes.sentBy(forward ? from[pipe]! : to[pipe]!))
    for (let field = 0; field < WATER_FIELDS; field++) this.#gone[field] = 0
    this.#pop(pipe, forward)
    wall.met[pipe]! += now[NOW.wallRate]! * minutes
    nodes.bring(forward ? to[pipe]! : from[pipe]!, returning[pipe]!, this.#gone)
    this.#note(pipe, forward)
  }

  /** Records what left in the step. */
  #note(pipe: number, forward: boolean): void {
    const { record, change } = this.#of
    const now = this.#now
    const span = this.#span
    const gone = this.#gone
    const minutes = now[NOW.minutes]!
    const end = now[NOW.start]! + minutes
    this.#forward[pipe] = forward ? 1 : 0
    this.#recordedTo[pipe] = end
    this.movedMinutes[pipe]! += minutes
    const litres = gone[WATER_FIELDS]!
    for (let field = 0; field < WATER_FIELDS; field++) gone[field]! /= litres
    span[SPAN.minutes] = minutes
    span[SPAN.end] = end - this.#dawn
    span[SPAN.startC] = gone[WATER.temperature]!
    span[SPAN.favour] = change.favour(gone[WATER.temperature]!, gone[WATER.residual]!)
    record.add(pipe, span, gone, gone)
  }

  #push(pipe: number, forward: boolean, row: number): void {
    const { store, wall, nodes } = this.#of
    const water = nodes.sent
    const now = this.#now
    const start = now[NOW.start]!
    const end = start + now[NOW.minutes]!
    const met = wall.met[pipe]!
    const metAfter = met + now[NOW.wallRate]! * now[NOW.minutes]!
    const count = store.count[pipe]!
    if (count > 0) {
      const last = store.at(pipe, forward ? count - 1 : 0)
      if (this.#joins(pipe, last, forward, row)) {
        this.#join(pipe, last, row)
        store.data[last + (forward ? ENTRY_FROM : ENTRY_TO)] = end
        store.data[last + (forward ? WALL_FROM : WALL_TO)] = metAfter
        return
      }
    }
    const at = forward ? store.addFrom(pipe) : store.addTo(pipe)
    const { data } = store
    data[at + VOLUME_L] = now[NOW.litres]!
    data[at + ENTRY_TO] = forward ? start : end
    data[at + ENTRY_FROM] = forward ? end : start
    data[at + STOOD] = this.#stoodBefore[pipe]!
    data[at + WALL_TO] = forward ? met : metAfter
    data[at + WALL_FROM] = forward ? metAfter : met
    for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = water[row + field]!
  }

  /** True where what comes in is one water with the last parcel, or too little beside the pipe to be told apart. */
  #joins(pipe: number, last: number, forward: boolean, row: number): boolean {
    const { store, rates, nodes } = this.#of
    const now = this.#now
    const litres = now[NOW.litres]!
    const finest = rates.volumeL[pipe]! * FINEST_SHARE
    if (litres > 2 * finest) return false
    const { data } = store
    const volumeL = data[last + VOLUME_L]!
    if (volumeL + litres > 2 * finest) return false
    if (volumeL < finest && store.count[pipe]! > 1 / FINEST_SHARE) return true
    const rate = now[NOW.rate]!
    const near = data[last + (forward ? ENTRY_TO : ENTRY_FROM)]!
    const far = data[last + (forward ? ENTRY_FROM : ENTRY_TO)]!
    const gap = far - now[NOW.start]!
    if (gap > INSTANT || gap < -INSTANT || Math.abs(volumeL / (far - near) - rate) > SAME.flow * rate) return false
    const water = nodes.sent
    const age = data[last + AGE + WATER.age]!
    const residual = data[last + AGE + WATER.residual]!
    return (
      Math.abs(data[last + AGE + WATER.temperature]! - water[row + WATER.temperature]!) <= SAME.kelvin &&
      Math.abs(residual - water[row + WATER.residual]!) <= SAME.residual * residual &&
      Math.abs(data[last + AGE + WATER.growth]! - water[row + WATER.growth]!) <= SAME.growth &&
      Math.abs(age - water[row + WATER.age]!) <= Math.max(SAME.minutes, SAME.age * age)
    )
  }

  #join(pipe: number, last: number, row: number): void {
    const water = this.#of.nodes.sent
    const litres = this.#now[NOW.litres]!
    const { data } = this.#of.store
    const before = data[last + VOLUME_L]!
    const share = litres / (before + litres)
    for (let field = 0; field < WATER_FIELDS; field++)
      data[last + AGE + field]! += share * (water[row + field]! - data[last + AGE + field]!)
    data[last + VOLUME_L] = before + litres
    data[last + STOOD]! += share * (this.#stoodBefore[pipe]! - data[last + STOOD]!)
  }

  /**
   * Lets a step's litres out; sums of volume × quantity, and the litres, are then in `#gone`. Parcels that were about as long in the
   * pipe are worked out together.
   */
  #pop(pipe: number, forward: boolean): void {
    const { store, wall, change } = this.#of
    const { data } = store
    const { water, exposure } = change
    const now = this.#now
    const litres = now[NOW.litres]!
    const minutes = now[NOW.minutes]!
    const start = now[NOW.start]!
    const wallRate = now[NOW.wallRate]!
    const near = forward ? ENTRY_TO : ENTRY_FROM
    const far = forward ? ENTRY_FROM : ENTRY_TO
    const stoodBefore = this.#stoodBefore[pipe]!
    const metBefore = wall.met[pipe]!
    let passed = 0
    let count = store.count[pipe]!
    while (passed < litres && count > 0) {
      let held = 0
      let spentSum = 0
      let stoodSum = 0
      let metSum = 0
      let age = 0
      let heat = 0
      let residual = 0
      let growth = 0
      let standing = 0
      while (passed < litres && count > 0) {
        const at = store.at(pipe, forward ? 0 : count - 1)
        const volumeL = data[at + VOLUME_L]!
        const whole = volumeL <= (litres - passed) * (1 + 1e-12)
        const take = whole ? volumeL : litres - passed
        const part = whole ? 1 : take / volumeL
        const entry = data[at + near]!
        const entryStep = (data[at + far]! - entry) * part
        const after = ((passed + take / 2) / litres) * minutes
        const spent = positive(start + after - entry - entryStep / 2)
        if (held > 0 && !isLike(spent, spentSum / held)) break
        const wallEntry = data[at + near + TO_WALL]!
        const wallStep = (data[at + far + TO_WALL]! - wallEntry) * part
        const stood = positive(stoodBefore - data[at + STOOD]!)
        held += take
        passed += take
        spentSum += take * spent
        stoodSum += take * (stood > spent ? spent : stood)
        metSum += take * positive(metBefore + wallRate * after - wallEntry - wallStep / 2)
        age += take * data[at + AGE + WATER.age]!
        heat += take * data[at + AGE + WATER.temperature]!
        residual += take * data[at + AGE + WATER.residual]!
        growth += take * data[at + AGE + WATER.growth]!
        standing += take * data[at + AGE + WATER.standing]!
        if (whole) {
          store.drop(pipe, forward)
          count--
        } else {
          data[at + VOLUME_L] = volumeL - take
          data[at + near] = entry + entryStep
          data[at + near + TO_WALL] = wallEntry + wallStep
        }
      }
      water[WATER.age] = age
      water[WATER.temperature] = heat
      water[WATER.residual] = residual
      water[WATER.growth] = growth
      water[WATER.standing] = standing
      exposure[EXPOSURE.spent] = spentSum
      exposure[EXPOSURE.stood] = stoodSum
      exposure[EXPOSURE.wall] = metSum
      this.#letOut(pipe, held)
    }
    this.#gone[WATER_FIELDS] = passed
  }

  /** Works out what litres met in a pipe, given as sums of litres × what they were and met, and adds them to what leaves. */
  #letOut(pipe: number, litres: number): void {
    const { change } = this.#of
    const { water, exposure } = change
    const gone = this.#gone
    const heat = water[WATER.temperature]!
    for (let field = 0; field < WATER_FIELDS; field++) water[field]! /= litres
    for (let kind = 0; kind < exposure.length; kind++) exposure[kind]! /= litres
    change.stay(pipe)
    this.lostLK[pipe]! += heat - litres * water[WATER.temperature]!
    for (let field = 0; field < WATER_FIELDS; field++) gone[field]! += litres * water[field]!
  }
}

const positive = (value: number): number => (value > 0 ? value : 0)

/** True where two times in the pipe may be worked out together. */
function isLike(spent: number, mean: number): boolean {
  const apart = spent > mean ? spent - mean : mean - spent
  return apart <= ALIKE_MINUTES || apart <= ALIKE_SHARE * mean
}

export interface ComingWater {
  pipe: number
  forward: boolean
  litres: number
  moment: number
  behindC: number
}
