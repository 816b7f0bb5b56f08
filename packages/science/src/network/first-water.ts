/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { FlowOrder } from './flow-order.ts'
import type { MeanState } from './mean-state.ts'
import type { Network } from './network.ts'
import type { NodeWater } from './node-water.ts'
import { AGE, ENTRY_FROM, ENTRY_TO, type ParcelStore, STOOD, VOLUME_L } from './parcel-store.ts'
import type { PipeRates } from './pipe-rates.ts'
import type { VesselBank } from './vessel-bank.ts'
import type { WallExposure } from './wall-exposure.ts'
import { EXPOSURE, WATER, WATER_FIELDS, type WaterChange } from './water-change.ts'

const MINUTES_PER_HOUR = 60
const MINUTES_PER_DAY = 1440
const PARCELS = 4
const MOST_ROUNDS = 100
const SETTLED = 1e-4
/** A change of less than this share of what is allowed is carried no further. */
const UNMOVED = 1e-2
const FLOWS_L_PER_MIN = 1e-6
/** Water with nowhere to go on balance is taken as a day old. */
const IDLE_MINUTES = MINUTES_PER_DAY

interface Parts {
  network: Network
  mean: MeanState
  order: FlowOrder
  rates: PipeRates
  change: WaterChange
  wall: WallExposure
  store: ParcelStore
  nodes: NodeWater
  vessels: VesselBank
  ageCapMinutes: number
}

/**
 * Fills pipes, vessels and nodes with the water of the day's mean flows, as a first guess of the repeating day. What it guesses
 * wrong the days mend; it decides how many they are, not what they come to.
 *
 * @source plug-flow-heat-balance
 */
export function fillWithMeanWater(parts: Parts): void {
  const { network, mean } = parts
  const water = new Float64Array(network.nodes.length * WATER_FIELDS)
  for (const [index, node] of network.nodes.entries()) {
    const row = index * WATER_FIELDS
    water[row + WATER.age] = mean.ageMinutes[index]!
    water[row + WATER.temperature] = mean.temperatureC[index]!
    if (node.kind === 'source') water[row + WATER.residual] = node.residualMgPerL
  }
  const walk = new MeanWalk(parts, water)
  for (let round = 0; round < MOST_ROUNDS; round++) if (walk.round()) break
  const unused = unusedVessels(parts)
  for (const [index, node] of network.nodes.entries())
    if (node.kind !== 'source')
      parts.nodes.sent.set(water.subarray(index * WATER_FIELDS, (index + 1) * WATER_FIELDS), index * WATER_FIELDS)
  fillVessels(parts, { water, unused })
  for (let pipe = 0; pipe < network.pipes.length; pipe++) fillPipe({ ...parts, pipe, water })
}

/** Carries all quantities along the mean flows, round after round. */
class MeanWalk {
  readonly #parts: Parts
  readonly #water: Float64Array
  readonly #came: Float64Array
  readonly #sums: Float64Array
  readonly #done: Uint8Array
  /** By node: 1 where its water changed in this round; by pipe: what it last brought. */
  readonly #moved: Uint8Array
  readonly #brought: Float64Array
  readonly #before = new Float64Array(WATER_FIELDS)
  readonly #valves: ReadonlyMap<number, Network['valves'][number]>
  #held = true

  constructor(parts: Parts, water: Float64Array) {
    const nodes = parts.network.nodes.length
    this.#parts = parts
    this.#water = water
    this.#came = new Float64Array(nodes)
    this.#sums = new Float64Array(nodes * WATER_FIELDS)
    this.#done = new Uint8Array(nodes)
    this.#moved = new Uint8Array(nodes).fill(1)
    this.#brought = new Float64Array(parts.network.pipes.length * WATER_FIELDS)
    this.#valves = new Map(parts.network.valves.map((valve) => [valve.mixedNode, valve]))
  }

  /** True where the round changed next to nothing. */
  round(): boolean {
    const { network, mean, order } = this.#parts
    this.#came.fill(0)
    this.#sums.fill(0)
    this.#done.fill(0)
    this.#held = true
    for (const pipe of order.list.pipes) {
      const flow = mean.flows[pipe]!
      const rate = Math.abs(flow)
      if (rate < FLOWS_L_PER_MIN) continue
      const { from, to } = network.pipes[pipe]!
      const upstream = flow > 0 ? from : to
      if (order.opened[upstream] === 0) this.#finish(upstream)
      if (this.#moved[upstream] === 1) this.#carry(pipe, { upstream, rate })
      this.#bring(flow > 0 ? to : from, { pipe, rate })
    }
    for (let node = 0; node < network.nodes.length; node++) this.#finish(node)
    return this.#held
  }

  /** What water from upstream comes to along a pipe. */
  #carry(pipe: number, { upstream, rate }: { upstream: number; rate: number }): void {
    const { change, wall, rates, ageCapMinutes } = this.#parts
    change.water.set(this.#water.subarray(upstream * WATER_FIELDS, (upstream + 1) * WATER_FIELDS))
    const moving = movingMinutes(this.#parts, { pipe, rate })
    const spent = Math.min(rates.volumeL[pipe]! / rate, ageCapMinutes)
    change.exposure[EXPOSURE.spent] = spent
    change.exposure[EXPOSURE.stood] = spent - moving
    change.exposure[EXPOSURE.wall] = wall.perMinute(pipe, rate) * moving
    change.stay(pipe)
    this.#brought.set(change.water, pipe * WATER_FIELDS)
  }

  #bring(node: number, { pipe, rate }: { pipe: number; rate: number }): void {
    this.#came[node]! += rate
    const row = node * WATER_FIELDS
    for (let field = 0; field < WATER_FIELDS; field++)
      this.#sums[row + field]! += rate * this.#brought[pipe * WATER_FIELDS + field]!
  }

  #finish(node: number): void {
    if (this.#done[node] === 1) return
    this.#done[node] = 1
    const valve = this.#valves.get(node)
    if (valve !== undefined) this.#joinPorts(valve)
    const came = this.#came[node]!
    if (came === 0) return
    const before = this.#before
    const row = node * WATER_FIELDS
    for (let field = 0; field < WATER_FIELDS; field++) {
      before[field] = this.#water[row + field]!
      this.#water[row + field] = this.#sums[row + field]! / came
    }
    // temperature and age are settled already, and hold at heaters what the mean water does not know
    this.#water[row + WATER.temperature] = this.#parts.mean.temperatureC[node]!
    this.#water[row + WATER.age] = this.#parts.mean.ageMinutes[node]!
    this.#hold(node, came)
    this.#moved[node] = this.#isMoved(row, SETTLED * UNMOVED) ? 1 : 0
    if (this.#isMoved(row, SETTLED)) this.#held = false
  }

  /** True where a node's water changed by more than a share. */
  #isMoved(row: number, share: number): boolean {
    const before = this.#before
    return (
      Math.abs(this.#water[row + WATER.residual]! - before[WATER.residual]!) >
        share * (1e-3 + before[WATER.residual]!) ||
      Math.abs(this.#water[row + WATER.growth]! - before[WATER.growth]!) > share
    )
  }

  #joinPorts({ hotNode, coldNode, mixedNode }: Network['valves'][number]): void {
    for (const port of [hotNode, coldNode]) {
      this.#finish(port)
      const row = port * WATER_FIELDS
      this.#came[mixedNode]! += this.#came[port]!
      for (let field = 0; field < WATER_FIELDS; field++)
        this.#sums[mixedNode * WATER_FIELDS + field]! += this.#came[port]! * this.#water[row + field]!
    }
  }

  /** A vessel keeps its water for as long as it takes to be replaced. */
  #hold(node: number, came: number): void {
    const { network, change, ageCapMinutes } = this.#parts
    const one = network.nodes[node]!
    if (one.kind !== 'vessel') return
    const row = node * WATER_FIELDS
    const minutes = Math.min(one.volumeL / came, ageCapMinutes)
    change.water.set(this.#water.subarray(row, row + WATER_FIELDS))
    change.react(this.#water[row + WATER.temperature]!, minutes / MINUTES_PER_HOUR)
    this.#water[row + WATER.residual] = change.water[WATER.residual]!
    this.#water[row + WATER.growth] = change.water[WATER.growth]!
    this.#water[row + WATER.standing] = change.water[WATER.standing]!
  }
}

/** True where the flow hardly changes over the day: a loop's. Elsewhere water mostly waits. */
const runsAllDay = ({ network }: Parts, pipe: number): boolean =>
  network.pipes[pipe]!.returning || network.pipes[pipe]!.fixedFlowLPerMin !== undefined

function movingMinutes(parts: Parts, { pipe, rate }: { pipe: number; rate: number }): number {
  return runsAllDay(parts, pipe) ? Math.min(parts.rates.volumeL[pipe]! / rate, parts.ageCapMinutes) : 0
}

/** Nodes of vessels through which nothing runs on balance. */
function unusedVessels({ network, mean, vessels }: Parts): Set<number> {
  const unused = new Set(vessels.states.map(({ node }) => node))
  for (const [pipe, { from, to }] of network.pipes.entries())
    if (Math.abs(mean.flows[pipe]!) >= FLOWS_L_PER_MIN) for (const node of [from, to]) unused.delete(node)
  return unused
}

function fillVessels(parts: Parts, { water, unused }: { water: Float64Array; unused: ReadonlySet<number> }): void {
  for (const { node, vessel, layers, water: held } of parts.vessels.states) {
    for (let layer = 0; layer < layers; layer++) {
      const row = layer * WATER_FIELDS
      const { setpointC } = vessel
      const heatedC = layer >= vessel.heatedFromLayer ? setpointC : undefined
      if (unused.has(node)) held.set(stoodIn(parts, Math.max(vessel.ambientC, heatedC ?? vessel.ambientC)), row)
      else {
        held.set(water.subarray(node * WATER_FIELDS, (node + 1) * WATER_FIELDS), row)
        if (heatedC !== undefined) held[row + WATER.temperature] = heatedC
      }
    }
    if (unused.has(node)) parts.nodes.sent.set(held.subarray((layers - 1) * WATER_FIELDS), node * WATER_FIELDS)
  }
}

/** Water that has stood at a temperature for as long as is told. */
function stoodIn({ change, ageCapMinutes }: Parts, temperatureC: number): Float64Array {
  change.water.fill(0)
  change.react(temperatureC, ageCapMinutes / MINUTES_PER_HOUR)
  change.water[WATER.age] = ageCapMinutes
  change.water[WATER.standing] = ageCapMinutes
  return change.water
}

/** Parcels of equal volume that came in one after the other; the oldest is at the end the water goes to. */
function fillPipe({ pipe, water, ...parts }: Parts & { pipe: number; water: Float64Array }): void {
  const { network, mean, rates, store } = parts
  const flow = mean.flows[pipe]!
  const rate = Math.abs(flow)
  const idle = rate < FLOWS_L_PER_MIN
  const spent = idle ? IDLE_MINUTES : Math.min(rates.volumeL[pipe]! / rate, parts.ageCapMinutes)
  const stood = idle ? spent : spent - movingMinutes(parts, { pipe, rate })
  const { from, to } = network.pipes[pipe]!
  const forward = flow >= 0
  const row = (forward ? from : to) * WATER_FIELDS
  const parcels = idle ? 1 : PARCELS
  for (let nth = 0; nth < parcels; nth++) {
    const at = forward ? store.addFrom(pipe) : store.addTo(pipe)
    const { data } = store
    const near = -spent * (1 - nth / parcels)
    const far = -spent * (1 - (nth + 1) / parcels)
    data[at + VOLUME_L] = rates.volumeL[pipe]! / parcels
    data[at + (forward ? ENTRY_TO : ENTRY_FROM)] = near
    data[at + (forward ? ENTRY_FROM : ENTRY_TO)] = far
    data[at + STOOD] = (stood * (near + far)) / 2 / spent
    for (let field = 0; field < WATER_FIELDS; field++) data[at + AGE + field] = water[row + field]!
    if (idle) data[at + AGE + WATER.temperature] = rates.ambientC[pipe]!
  }
}
