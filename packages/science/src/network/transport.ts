/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { NetworkPipe } from './network.ts'
import type { NodeWater } from './node-water.ts'
import { AGE, ENTRY_FROM, ENTRY_TO, type ParcelStore, STOOD, VOLUME_L, WALL_FROM, WALL_TO } from './parcel-store.ts'
import type { PipeRates } from './pipe-rates.ts'
import {
  BACK,
  COLUMNS,
  FINEST_L,
  FORWARD,
  FROM,
  LINKS,
  LOST_AT_DAWN,
  LOST_LK,
  MOVING,
  REST_SINCE,
  STOOD_BEFORE,
  TO,
} from './pipe-row.ts'
import { type PlaceRecord, SPAN, SPAN_FIELDS } from './place-record.ts'
import { positive } from './positive.ts'
import { RestingWater } from './resting-water.ts'
import type { RunningList } from './running-list.ts'
import type { WallExposure } from './wall-exposure.ts'
import { EXPOSURE, WATER, WATER_FIELDS, type WaterChange } from './water-change.ts'

/** Parcels finer than this share of a pipe are joined to the one before. */
const FINEST_SHARE = 1 / 48
/** From the time at which a face came in to the reading of the wall's clock, in a parcel's row. */
const TO_WALL = WALL_TO - ENTRY_TO
/** A step's rounding, in minutes. */
const INSTANT = 1e-6
/** Two parcels are one water within these: K, share of the residual, growth, minutes or share of the age, share of the flow. */
const SAME = { kelvin: 0.05, residual: 0.005, growth: 0.002, minutes: 1, age: 0.01, flow: 0.1 }
/** What a move is worked out with: its first minute, minutes, L/min, decay times a minute at the wall, L. */
const NOW = { start: 0, minutes: 1, rate: 2, wallRate: 3, litres: 4 } as const
/** Parcels that leave together are worked out together where their times in the pipe are this near: minutes, or share. */
const ALIKE_MINUTES = 3
const ALIKE_SHARE = 0.05

export interface TransportParts {
  pipes: readonly NetworkPipe[]
  rates: PipeRates
  store: ParcelStore
  change: WaterChange
  nodes: NodeWater
  record: PlaceRecord
  wall: WallExposure
  /** Where 1, no water has moved for a day: nothing is done until it does. */
  still: Uint8Array
}

/**
 * Moves water through the pipes, step by step. Each step a moving pipe takes in what its upstream node sends and gives out as much
 * at its other end, in the order of arrival; what the water met on the way is worked out as it leaves.
 */
export class Transport {
  /** What rests, kept in the same rows. */
  readonly resting: RestingWater
  readonly #of: TransportParts
  readonly #rows: Float64Array
  readonly #links: Int32Array
  /** What left a pipe: sums of volume × quantity, then the litres. */
  readonly #gone = new Float64Array(WATER_FIELDS + 1)
  readonly #mean = new Float64Array(WATER_FIELDS)
  readonly #span = new Float64Array(SPAN_FIELDS)
  readonly #now = new Float64Array(5)
  #dawn = 0

  constructor(of: TransportParts) {
    const { pipes, rates } = of
    this.#of = of
    this.#rows = new Float64Array(pipes.length * COLUMNS)
    this.#links = new Int32Array(pipes.length * LINKS)
    for (const [index, { from, to, returning }] of pipes.entries()) {
      this.#rows[index * COLUMNS + FINEST_L] = rates.volumeL[index]! * FINEST_SHARE
      this.#links.set([from, to, returning ? 1 : 0, 1], index * LINKS)
    }
    this.resting = new RestingWater(of, { rows: this.#rows, links: this.#links })
  }

  /** Begins a new day at a moment (minutes). */
  beginDay(moment: number): void {
    const rows = this.#rows
    this.#dawn = moment
    this.resting.beginDay(moment)
    for (let row = 0; row < rows.length; row += COLUMNS) rows[row + LOST_AT_DAWN] = rows[row + LOST_LK]!
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

  /** One step of `minutes` from `start` in the pipes of a list, with these flows. */
  step(list: RunningList, { flows, start, minutes }: { flows: Float64Array; start: number; minutes: number }): void {
    const { still } = this.#of
    const { pipes } = list
    const rows = this.#rows
    const now = this.#now
    now[NOW.minutes] = minutes
    for (let place = list.nextRunning(0); place < pipes.length; place = list.nextRunning(place + 1)) {
      const pipe = pipes[place]!
      // what rested all of a day may run after all, where a mixer or valve comes to take from it
      still[pipe] = 0
      const flow = flows[pipe]!
      if (rows[pipe * COLUMNS + REST_SINCE] !== MOVING) this.resting.wake(pipe, start)
      now[NOW.start] = start
      now[NOW.rate] = flow > 0 ? flow : -flow
      this.#move(pipe, flow > 0)
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
        Math.max(0, this.resting.stoodBy(pipe, moment) - store.data[at + STOOD]!),
      )
      coming.litresK += take * change.cooledC(pipe)
      coming.litres -= take
    }
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
