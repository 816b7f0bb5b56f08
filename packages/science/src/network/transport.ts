/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { REST_L_PER_MIN } from './flow-order.ts'
import type { NetworkPipe } from './network.ts'
import type { NodeWater } from './node-water.ts'
import { AGE, ENTRY_FROM, ENTRY_TO, type ParcelStore, STOOD, VOLUME_L, WALL_FROM, WALL_TO } from './parcel-store.ts'
import type { PipeRates } from './pipe-rates.ts'
import { type PlaceRecord, SPAN, SPAN_FIELDS } from './place-record.ts'
import type { RunningList } from './running-list.ts'
import type { WallExposure } from './wall-exposure.ts'
import { EXPOSURE, WATER, WATER_FIELDS, type WaterChange } from './water-change.ts'

const MINUTES_PER_DAY = 1440
const MOVING = -1
/** Parcels finer than this share of a pipe are joined to the one before. */
const FINEST_SHARE = 1 / 48
/** From the time at which a face came in to the reading of the wall's clock, in a parcel's row. */
const TO_WALL = WALL_TO - ENTRY_TO
/** Water that came in so little before its pipe came to rest is taken as having stood since then, in heat and decay; minutes. */
const BRIEF_MINUTES = 1
/** A step's rounding, in minutes. */
const INSTANT = 1e-6
/** Two parcels are one water within these: K, share of the residual, growth, minutes or share of the age, share of the flow. */
const SAME = { kelvin: 0.05, residual: 0.005, growth: 0.002, minutes: 1, age: 0.01, flow: 0.1 }
/**
 * What a move or a rest is worked out with: its first and last minute, minutes, L/min, decay times a minute at the wall, L; minutes
 * that its water moved before the rest and that are worked out with its first span.
 */
const NOW = { start: 0, end: 1, minutes: 2, rate: 3, wallRate: 4, litres: 5, before: 6 } as const
/**
 * A pipe's row, side by side in memory: litres of the finest parcel, minutes stood before the present rest, the minute at which that
 * began or MOVING, minutes at rest this day, litres × K given to the air in all and until the day began.
 */
const FINEST_L = 0
const STOOD_BEFORE = 1
const REST_SINCE = 2
const RESTED = 3
const LOST_LK = 4
const LOST_AT_DAWN = 5
const COLUMNS = 8
/** The same for whole numbers: the nodes at its ends, 1 where it brings water back, 1 where it last ran from `from` to `to`. */
const FROM = 0
const TO = 1
const BACK = 2
const FORWARD = 3
const LINKS = 4
/** Parcels that leave together are worked out together where their times in the pipe are this near: minutes, or share. */
const ALIKE_MINUTES = 3
const ALIKE_SHARE = 0.05
/** Rest is worked out in spans in which water changes by about this many K, within these limits. */
const SPANS = { changeK: 2, leastMinutes: 15, mostMinutes: 120 }

export interface TransportParts {
  pipes: readonly NetworkPipe[]
  rates: PipeRates
  store: ParcelStore
  change: WaterChange
  nodes: NodeWater
  record: PlaceRecord
  wall: WallExposure
  /** Where 1, no water ever moves: nothing is done. */
  still: Uint8Array
}

/**
 * Moves water through the pipes, step by step. Each step a moving pipe takes in what its upstream node sends and gives out as much
 * at its other end, in the order of arrival; what the water met on the way is worked out as it leaves. What stood at the end of a
 * resting pipe is worked out when it moves again, or at the end of the day.
 */
export class Transport {
  readonly #of: TransportParts
  readonly #rows: Float64Array
  readonly #links: Int32Array
  /** What left a pipe: sums of volume × quantity, then the litres. */
  readonly #gone = new Float64Array(WATER_FIELDS + 1)
  readonly #mean = new Float64Array(WATER_FIELDS)
  readonly #span = new Float64Array(SPAN_FIELDS)
  readonly #now = new Float64Array(7)
  #dawn = 0

  constructor(of: TransportParts) {
    const { pipes, rates } = of
    this.#of = of
    this.#rows = new Float64Array(pipes.length * COLUMNS)
    this.#links = new Int32Array(pipes.length * LINKS)
    for (const [index, { from, to, returning }] of pipes.entries()) {
      this.#rows[index * COLUMNS + FINEST_L] = rates.volumeL[index]! * FINEST_SHARE
      this.#rows[index * COLUMNS + REST_SINCE] = MOVING
      this.#links.set([from, to, returning ? 1 : 0, 1], index * LINKS)
    }
  }

  /** Begins a new day of `movedMinutes` and `lostToday` at a moment (minutes). */
  beginDay(moment: number): void {
    const rows = this.#rows
    this.#dawn = moment
    for (let row = 0; row < rows.length; row += COLUMNS) {
      rows[row + RESTED] = 0
      rows[row + LOST_AT_DAWN] = rows[row + LOST_LK]!
    }
  }

  /** Litres × K a pipe's water has given to the air since the day began. */
  lostToday(pipe: number): number {
    return this.#rows[pipe * COLUMNS + LOST_LK]! - this.#rows[pipe * COLUMNS + LOST_AT_DAWN]!
  }

  /** Litres × K given to the air in all pipes since the start. */
  lostLK(): number {
    let sum = 0
    for (let row = 0; row < this.#rows.length; row += COLUMNS) sum += this.#rows[row + LOST_LK]!
    return sum
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

  /** One step of `minutes` from `start` in the pipes of a list, with these flows. */
  step(list: RunningList, { flows, start, minutes }: { flows: Float64Array; start: number; minutes: number }): void {
    const { still } = this.#of
    const { pipes } = list
    const rows = this.#rows
    const now = this.#now
    now[NOW.minutes] = minutes
    for (let place = list.nextRunning(0); place < pipes.length; place = list.nextRunning(place + 1)) {
      const pipe = pipes[place]!
      if (still[pipe] === 1) continue
      const flow = flows[pipe]!
      if (rows[pipe * COLUMNS + REST_SINCE] !== MOVING) this.#wake(pipe, start)
      now[NOW.start] = start
      now[NOW.rate] = flow > 0 ? flow : -flow
      this.#move(pipe, flow > 0)
    }
  }

  /** Records what still rests up to the end of a day. A pipe that rested all day is taken to be still for good. */
  endDay(moment: number): void {
    const { still } = this.#of
    for (let pipe = 0; pipe < still.length; pipe++) {
      if (this.#rows[pipe * COLUMNS + REST_SINCE] === MOVING || still[pipe] === 1) continue
      this.#recordRest(pipe, moment)
      if (this.movedMinutes(pipe) === 0) still[pipe] = 1
    }
  }

  /** Takes from what is to come out of a pipe's downstream end at a moment, as far as the pipe holds it. */
  foresee(coming: ComingWater, { pipe, forward, moment }: { pipe: number; forward: boolean; moment: number }): void {
    const { store, change } = this.#of
    const near = forward ? ENTRY_TO : ENTRY_FROM
    const count = store.count[pipe]!
    for (let nth = 0; nth < count && coming.litres > 0; nth++) {
      const at = store.at(pipe, forward ? nth : count - 1 - nth)
      const volumeL = store.data[at + VOLUME_L]!
      const passed = Math.min(coming.firstL, volumeL)
      const take = Math.min(coming.litres, volumeL - passed)
      coming.firstL -= passed
      if (take <= 0) continue
      change.water[WATER.temperature] = store.data[at + AGE + WATER.temperature]!
      const spent = Math.max(0, moment - store.data[at + near]!)
      change.exposure[EXPOSURE.spent] = spent
      change.exposure[EXPOSURE.stood] = Math.min(
        spent,
        Math.max(0, this.stoodBy(pipe, moment) - store.data[at + STOOD]!),
      )
      coming.litresK += take * change.cooledC(pipe)
      coming.litres -= take
    }
  }

  /** Minutes a pipe has stood in all. */
  stoodBy(pipe: number, moment: number): number {
    const since = this.#rows[pipe * COLUMNS + REST_SINCE]!
    return this.#rows[pipe * COLUMNS + STOOD_BEFORE]! + (since === MOVING ? 0 : moment - since)
  }

  #wake(pipe: number, moment: number): void {
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

  #move(pipe: number, forward: boolean): void {
    const { nodes, wall } = this.#of
    const links = this.#links
    const link = pipe * LINKS
    const now = this.#now
    const rate = now[NOW.rate]!
    const minutes = now[NOW.minutes]!
    now[NOW.wallRate] = wall.perMinute(pipe, rate)
    now[NOW.litres] = rate * minutes
    links[link + FORWARD] = forward ? 1 : 0
    this.#push(pipe, forward, nodes.sentBy(links[link + (forward ? FROM : TO)]!))
    for (let sum = 0; sum <= WATER_FIELDS; sum++) this.#gone[sum] = 0
    this.#pop(pipe, forward)
    if (this.#of.store.count[pipe] === 1) this.#of.store.settleOne(pipe)
    wall.meet(pipe, now[NOW.wallRate]! * minutes)
    nodes.bring(links[link + (forward ? TO : FROM)]!, links[link + BACK]!, this.#gone)
    this.#note(pipe)
  }

  /** Records what left in the step. */
  #note(pipe: number): void {
    const { record, change } = this.#of
    const now = this.#now
    const span = this.#span
    const gone = this.#gone
    const mean = this.#mean
    const perLitre = 1 / gone[WATER_FIELDS]!
    for (let field = 0; field < WATER_FIELDS; field++) mean[field] = gone[field]! * perLitre
    span[SPAN.minutes] = now[NOW.minutes]!
    span[SPAN.end] = now[NOW.start]! + now[NOW.minutes]! - this.#dawn
    span[SPAN.startC] = mean[WATER.temperature]!
    span[SPAN.favour] = change.favour(mean[WATER.temperature]!, mean[WATER.residual]!)
    record.addEven(pipe, span, mean)
  }

  #push(pipe: number, forward: boolean, row: number): void {
    const { store, wall, nodes } = this.#of
    const water = nodes.sent
    const now = this.#now
    const start = now[NOW.start]!
    const end = start + now[NOW.minutes]!
    const met = wall.metIn(pipe)
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
    data[at + STOOD] = this.#rows[pipe * COLUMNS + STOOD_BEFORE]!
    data[at + WALL_TO] = forward ? met : metAfter
    data[at + WALL_FROM] = forward ? metAfter : met
    for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = water[row + field]!
  }

  /** True where what comes in is one water with the last parcel, or too little beside the pipe to be told apart. */
  #joins(pipe: number, last: number, forward: boolean, row: number): boolean {
    const { store, nodes } = this.#of
    const now = this.#now
    const litres = now[NOW.litres]!
    const finest = this.#rows[pipe * COLUMNS + FINEST_L]!
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
    data[last + STOOD]! += share * (this.#rows[pipe * COLUMNS + STOOD_BEFORE]! - data[last + STOOD]!)
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
    const minutesALitre = now[NOW.minutes]! / litres
    const start = now[NOW.start]!
    const wallRate = now[NOW.wallRate]!
    const near = forward ? ENTRY_TO : ENTRY_FROM
    const far = forward ? ENTRY_FROM : ENTRY_TO
    const stoodBefore = this.#rows[pipe * COLUMNS + STOOD_BEFORE]!
    const metBefore = wall.metIn(pipe)
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
        const after = (passed + take * 0.5) * minutesALitre
        const spent = positive(start + after - entry - entryStep * 0.5)
        if (held > 0 && !isLike(spent * held, spentSum, held)) break
        const wallEntry = data[at + near + TO_WALL]!
        const wallStep = (data[at + far + TO_WALL]! - wallEntry) * part
        const stood = positive(stoodBefore - data[at + STOOD]!)
        held += take
        passed += take
        spentSum += take * spent
        stoodSum += take * (stood > spent ? spent : stood)
        metSum += take * positive(metBefore + wallRate * after - wallEntry - wallStep * 0.5)
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
    const perLitre = 1 / litres
    for (let field = 0; field < WATER_FIELDS; field++) water[field]! *= perLitre
    for (let kind = 0; kind < exposure.length; kind++) exposure[kind]! *= perLitre
    change.stay(pipe)
    this.#rows[pipe * COLUMNS + LOST_LK]! += heat - litres * water[WATER.temperature]!
    for (let field = 0; field < WATER_FIELDS; field++) gone[field]! += litres * water[field]!
  }
}

const positive = (value: number): number => (value > 0 ? value : 0)

/** True where a time in the pipe and a mean of others may be worked out together; both times the litres of the mean. */
function isLike(spent: number, mean: number, litres: number): boolean {
  const apart = spent > mean ? spent - mean : mean - spent
  return apart <= ALIKE_MINUTES * litres || apart <= ALIKE_SHARE * mean
}

/** Water about to come: litres that go before it, its litres not yet found, and litres × °C of those that were. */
export interface ComingWater {
  firstL: number
  litres: number
  litresK: number
}
