/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import settings from '@rillmark/reference/network/simulation.json' with { type: 'json' }
import { DrawControl } from './draw-control.ts'
import { drawsByStep } from './draws-by-step.ts'
import { fillWithMeanWater } from './first-water.ts'
import type { FlowField } from './flow-field.ts'
import { FlowOrder } from './flow-order.ts'
import { FlowRecord } from './flow-record.ts'
import { makeFlowField } from './make-flow-field.ts'
import { makeKinetics } from './kinetics.ts'
import { quietTwigs } from './mean-draws.ts'
import { meanState } from './mean-state.ts'
import type { Network } from './network.ts'
import { NodeWater } from './node-water.ts'
import { ParcelStore, AGE, VOLUME_L } from './parcel-store.ts'
import { pipeRates, type PipeRates } from './pipe-rates.ts'
import { PlaceRecord, SPAN, SPAN_FIELDS } from './place-record.ts'
import { refillSlowPipes } from './slow-pipes.ts'
import { SpoutRecord } from './spout-record.ts'
import { Transport } from './transport.ts'
import { TwigFlows } from './twig-flows.ts'
import { twigsOf } from './twigs.ts'
import { VesselBank } from './vessel-bank.ts'
import { WallExposure } from './wall-exposure.ts'
import { WATER, WATER_FIELDS, WaterChange } from './water-change.ts'

const MINUTES_PER_DAY = 1440
const MINUTES_PER_HOUR = 60
/** Progress is told after so many steps. */
const TOLD_STEPS = 15
/** Flows are found to this share of the largest of their rings: far below what a description can know. */
const FLOW_ERROR_SHARE = 1e-4

/** A branch that carries more than this on the mean is a trunk: water runs there in most minutes of the day. */
const TRUNK_L_PER_MIN = 2

export const AGE_CAP_MINUTES = settings.figures.ageCap.value * MINUTES_PER_HOUR

/** Litres, and litres × K, that went through the building in a day. */
export interface DayTotals {
  inL: number
  outL: number
  inLK: number
  outLK: number
  heatedLK: number
  lostLK: number
  storedLK: number
}

/** Minutes of a step of the twigs and of one of the mains, a multiple of it; spans of the curves. */
export interface RunSteps {
  stepMinutes: number
  mainMinutes: number
  slots: number
}

/** A building under simulation: everything it holds, a day at a time. */
export class BuildingRun {
  readonly network: Network
  readonly rates: PipeRates
  readonly record: PlaceRecord
  /** Places: the layers of each vessel, bottom first, then each mixed node. */
  readonly nodeRecord: PlaceRecord
  readonly flowRecord: FlowRecord
  readonly transport: Transport
  readonly vessels: VesselBank
  readonly still: Uint8Array
  readonly control: DrawControl
  readonly change: WaterChange
  readonly #field: FlowField
  readonly #order: FlowOrder
  readonly #twigs: TwigFlows
  /** Nodes of the mains from which water leaves for a twig or a spout. */
  readonly #roots: Int32Array
  readonly #store: ParcelStore
  readonly #nodes: NodeWater
  readonly #spouts: SpoutRecord
  readonly #wall: WallExposure
  readonly #stepMinutes: number
  /** Steps that the mains take at once. */
  readonly #mainSteps: number
  readonly #mixed: readonly number[]
  readonly #sources: readonly number[]
  readonly #row = new Float64Array(WATER_FIELDS)
  readonly #span = new Float64Array(SPAN_FIELDS)
  #inL = 0
  #inLK = 0

  constructor(network: Network, { stepMinutes, mainMinutes, slots }: RunSteps) {
    const pipes = network.pipes.length
    this.network = network
    this.#stepMinutes = stepMinutes
    this.#mainSteps = Math.round(mainMinutes / stepMinutes)
    const twigs = twigsOf(network)
    // where the mains take longer steps, a trunk that hardly ever rests goes with them
    const byDraw = this.#mainSteps > 1 ? quietTwigs(network, { twigs, lPerMin: TRUNK_L_PER_MIN }) : twigs
    this.#twigs = new TwigFlows(network, byDraw)
    this.#roots = rootsOf(network, this.#twigs)
    this.#field = makeFlowField(network, { errorShare: FLOW_ERROR_SHARE })
    this.#order = new FlowOrder(network, twigs)
    const ageCapMinutes = AGE_CAP_MINUTES
    const mean = meanState({ network, field: this.#field, order: this.#order, ageCapMinutes })
    const waterC = expectedC(network, mean)
    this.rates = pipeRates(network, waterC)
    const wall = new WallExposure({ pipes: network.pipes, chemistry: network.chemistry, waterC })
    const change = new WaterChange({
      rates: this.rates,
      kinetics: makeKinetics(network.chemistry),
      wallStandingPerHour: wall.standingPerHour,
      ageCapMinutes,
    })
    this.change = change
    this.#wall = wall
    this.#store = new ParcelStore(pipes)
    this.vessels = new VesselBank({ network, change, ageCapMinutes })
    this.#nodes = new NodeWater({ network, vessels: this.vessels, order: this.#order })
    const parts = { network, mean, order: this.#order, rates: this.rates, change, wall, store: this.#store }
    fillWithMeanWater({ ...parts, nodes: this.#nodes, vessels: this.vessels, ageCapMinutes })
    this.record = new PlaceRecord(pipes, slots)
    this.#mixed = network.valves.map(({ mixedNode }) => mixedNode)
    const layers = this.vessels.states.reduce((sum, state) => sum + state.layers, 0)
    this.nodeRecord = new PlaceRecord(layers + this.#mixed.length, slots)
    this.flowRecord = new FlowRecord(pipes, slots)
    this.still = new Uint8Array(pipes)
    this.transport = new Transport({
      ...parts,
      pipes: network.pipes,
      nodes: this.#nodes,
      record: this.record,
      still: this.still,
    })
    this.#spouts = new SpoutRecord(network.outlets.length)
    this.#sources = network.nodes.flatMap(({ kind }, index) => (kind === 'source' ? [index] : []))
    this.control = this.#drawControl()
    this.flowRecord.add(this.#field.flows, { changed: Int32Array.from(network.pipes.keys()), moment: 0 })
    this.transport.resting.rest(mean.flows, { changed: Int32Array.from(network.pipes.keys()), moment: 0 })
  }

  /** Runs one day, the first being 0; records are then of that day. */
  runDay(day: number, progress?: (fraction: number) => void): DayTotals {
    const steps = MINUTES_PER_DAY / this.#stepMinutes
    const before = this.#totals()
    this.#beginDay(day * MINUTES_PER_DAY)
    for (let step = 0; step < steps; step += this.#mainSteps) {
      this.#step(day, step)
      if (progress !== undefined && step % TOLD_STEPS < this.#mainSteps) progress(step / steps)
    }
    this.#endDay((day + 1) * MINUTES_PER_DAY)
    const after = this.#totals()
    return {
      inL: after.inL - before.inL,
      outL: after.outL - before.outL,
      inLK: after.inLK - before.inLK,
      outLK: after.outLK - before.outLK,
      heatedLK: after.heatedLK - before.heatedLK,
      lostLK: after.lostLK - before.lostLK,
      storedLK: after.storedLK - before.storedLK,
    }
  }

  /** After a day: what is slow to pass is taken as that day's flows would have left it. */
  refillSlow(day: number): void {
    const moment = (day + 1) * MINUTES_PER_DAY
    refillSlowPipes({
      network: this.network,
      rates: this.rates,
      change: this.change,
      store: this.#store,
      nodes: this.#nodes,
      wall: this.#wall,
      still: this.still,
      flowOf: (pipe) => this.flowRecord.spreadOf(pipe, moment).mean,
      movedMinutes: (pipe) => this.transport.resting.movedMinutes(pipe),
      stoodBy: (pipe) => this.transport.resting.stoodBy(pipe, moment),
      moment,
      ageCapMinutes: AGE_CAP_MINUTES,
    })
  }

  #drawControl(): DrawControl {
    const { network } = this
    // the demands of the mean are taken back: from here on each step asks anew
    for (const { hotNode, coldNode } of network.outlets)
      for (const node of [hotNode, coldNode]) if (node !== undefined) this.#field.setDemand(node, 0)
    return new DrawControl({
      network,
      field: this.#field,
      twigs: this.#twigs,
      draws: drawsByStep(network.outlets, this.#stepMinutes),
      nodes: this.#nodes,
      transport: this.transport,
      spouts: this.#spouts,
    })
  }

  #beginDay(moment: number): void {
    this.record.begin()
    this.nodeRecord.begin()
    this.#spouts.begin()
    this.flowRecord.begin(moment)
    this.transport.beginDay(moment)
  }

  #endDay(moment: number): void {
    this.transport.resting.endDay(moment)
    this.flowRecord.close(moment)
  }

  /** A step of the mains, and the steps of the twigs in it: these take what the mains' nodes send throughout. */
  #step(day: number, step: number): void {
    const steps = this.#mainSteps
    const minutes = steps * this.#stepMinutes
    const start = day * MINUTES_PER_DAY + step * this.#stepMinutes
    // by number a step of the mains comes after those of the twigs in it
    const number = (day * MINUTES_PER_DAY * (steps + 1)) / this.#stepMinutes + step * (steps + 1)
    this.vessels.age(minutes / 2)
    this.control.foresee(step, { steps, moment: start, minutes: this.#stepMinutes })
    const { flows } = this.#field
    const changed = this.#field.takeChanged()
    this.#order.follow(flows, changed)
    this.flowRecord.add(flows, { changed, moment: start })
    this.transport.resting.rest(flows, { changed, moment: start })
    this.#nodes.begin(number + steps)
    this.transport.step(this.#order.list, { flows, start, minutes })
    for (let at = 0; at < this.#roots.length; at++) this.#nodes.sentBy(this.#roots[at]!)
    for (let nth = 0; nth < steps; nth++) {
      this.#nodes.begin(number + nth)
      this.#stepTwigs(step + nth, start + nth * this.#stepMinutes)
    }
    this.#nodes.begin(number + steps)
    this.#nodes.finish()
    this.vessels.age(minutes / 2)
    for (const node of this.#sources) this.#enter(node, minutes)
    this.#recordNodes(step * this.#stepMinutes, minutes)
  }

  #stepTwigs(step: number, start: number): void {
    const minutes = this.#stepMinutes
    this.control.open(step)
    const { flows, list } = this.#twigs
    const changed = this.#twigs.takeChanged()
    this.flowRecord.add(flows, { changed, moment: start })
    this.transport.resting.rest(flows, { changed, moment: start })
    this.transport.step(list, { flows, start, minutes })
    this.control.record(step, minutes)
  }

  #enter(node: number, minutes: number): void {
    const litres = this.#field.outflowOf(node) * minutes
    this.#inL += litres
    this.#inLK += litres * this.#nodes.sent[node * WATER_FIELDS + WATER.temperature]!
  }

  #recordNodes(start: number, minutes: number): void {
    const span = this.#span
    span[SPAN.minutes] = minutes
    span[SPAN.end] = start + minutes
    let place = 0
    const add = (rows: Float64Array, row: number): void => {
      const water = this.#row
      for (let field = 0; field < WATER_FIELDS; field++) water[field] = rows[row + field]!
      span[SPAN.startC] = water[WATER.temperature]!
      span[SPAN.favour] = this.change.favour(water[WATER.temperature]!, water[WATER.residual]!)
      this.nodeRecord.add(place++, span, water, water)
    }
    for (const { water, layers } of this.vessels.states)
      for (let layer = 0; layer < layers; layer++) add(water, layer * WATER_FIELDS)
    for (const node of this.#mixed) add(this.#nodes.sent, node * WATER_FIELDS)
  }

  #totals(): DayTotals {
    let storedLK = 0
    const { data } = this.#store
    for (let pipe = 0; pipe < this.still.length; pipe++)
      for (let place = 0; place < this.#store.count[pipe]!; place++) {
        const at = this.#store.at(pipe, place)
        storedLK += data[at + VOLUME_L]! * data[at + AGE + WATER.temperature]!
      }
    for (const { water, layers, layerL } of this.vessels.states)
      for (let layer = 0; layer < layers; layer++) storedLK += layerL * water[layer * WATER_FIELDS + WATER.temperature]!
    storedLK += this.#nodes.keptLK()
    return {
      inL: this.#inL,
      outL: this.#spouts.leftL,
      inLK: this.#inLK,
      outLK: this.#spouts.leftLK,
      heatedLK: this.#nodes.heatedLK + this.vessels.heatedLK + this.vessels.addedLK + this.#nodes.addedLK,
      lostLK: this.vessels.lostLK + this.transport.lostLK(),
      storedLK,
    }
  }
}

function rootsOf({ outlets }: Network, { root }: TwigFlows): Int32Array {
  const found = new Set(root.filter((main, node) => main !== node))
  for (const { hotNode, coldNode } of outlets)
    for (const node of [hotNode, coldNode]) if (node !== undefined) found.add(root[node]!)
  return Int32Array.from(found)
}

/** What water a pipe is expected to hold: between what its ends have on balance. */
function expectedC(network: Network, mean: { temperatureC: Float64Array; flows: Float64Array }): Float64Array {
  return Float64Array.from(network.pipes, ({ from, to, ambientC }, pipe) => {
    const flow = mean.flows[pipe]!
    const middle = (mean.temperatureC[from]! + mean.temperatureC[to]!) / 2
    return Math.min(100, Math.max(0, Math.abs(flow) < 1e-9 ? ambientC : middle))
  })
}
