/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { FlowOrder } from './flow-order.ts'
import type { Network, NetworkNode, NetworkValve } from './network.ts'
import type { VesselBank } from './vessel-bank.ts'
import { WATER, WATER_FIELDS } from './water-change.ts'

const NEVER = -1
const SOURCE = 1
const VESSEL = 2
const MIXED = 3
const HEATER = 4
const KINDS = { junction: 0, source: SOURCE, vessel: VESSEL, mixed: MIXED, heater: HEATER }

/**
 * The water at the nodes during one step: what comes in mixes completely, and what is sent on is its mean over the step.
 *
 * A node that opens a round (see `FlowOrder`) sends what it held: a vessel its own water, any other node the water that came to it
 * in the step before, which it keeps.
 */
export class NodeWater {
  /** Rows = nodes, columns = quantities: what each node sends on in this step, or sent when it last did. */
  readonly sent: Float64Array
  /** Litres that came to each node in this step, valid where `sawIn`; with sums of volume × quantity. */
  readonly #litres: Float64Array
  readonly #sums: Float64Array
  readonly #stampIn: Int32Array
  readonly #stampOut: Int32Array
  readonly #nodes: readonly NetworkNode[]
  readonly #kinds: Uint8Array
  readonly #vessels: VesselBank
  readonly #order: FlowOrder
  /** Litres kept at nodes that open a round. */
  readonly #keptL: Float64Array
  /** By mixed node: the share of hot water a valve takes in this step. */
  readonly hotShare: Float64Array
  readonly #valves: ReadonlyMap<number, NetworkValve>
  #step = NEVER
  /** Litres × K put in by heaters that hold no water. */
  heatedLK = 0

  constructor(of: { network: Network; vessels: VesselBank; order: FlowOrder }) {
    const { nodes } = of.network
    this.#nodes = nodes
    this.#kinds = Uint8Array.from(nodes, ({ kind }) => KINDS[kind])
    this.#vessels = of.vessels
    this.#order = of.order
    this.sent = new Float64Array(nodes.length * WATER_FIELDS)
    this.#litres = new Float64Array(nodes.length)
    this.#sums = new Float64Array(nodes.length * WATER_FIELDS)
    this.#stampIn = new Int32Array(nodes.length).fill(NEVER)
    this.#stampOut = new Int32Array(nodes.length).fill(NEVER)
    this.#keptL = new Float64Array(nodes.length)
    this.hotShare = new Float64Array(nodes.length)
    this.#valves = new Map(of.network.valves.map((valve) => [valve.mixedNode, valve]))
    for (const [index, node] of nodes.entries())
      if (node.kind === 'source') {
        this.sent[index * WATER_FIELDS + WATER.temperature] = node.temperatureC
        this.sent[index * WATER_FIELDS + WATER.residual] = node.residualMgPerL
      }
  }

  begin(step: number): void {
    this.#step = step
  }

  /** Adds what a pipe brought: sums of volume × quantity, and the litres after them. */
  bring(node: number, back: number, sums: Float64Array): void {
    const litres = sums[WATER_FIELDS]!
    if (this.#kinds[node] === VESSEL) {
      const { inL, inSums } = this.#vessels.at(node)
      inL[back]! += litres
      for (let field = 0; field < WATER_FIELDS; field++) inSums[back * WATER_FIELDS + field]! += sums[field]!
      return
    }
    const row = node * WATER_FIELDS
    if (this.#stampIn[node] !== this.#step) {
      this.#stampIn[node] = this.#step
      this.#litres[node] = litres
      for (let field = 0; field < WATER_FIELDS; field++) this.#sums[row + field] = sums[field]!
      return
    }
    this.#litres[node]! += litres
    for (let field = 0; field < WATER_FIELDS; field++) this.#sums[row + field]! += sums[field]!
  }

  /** Litres that came to a node in this step. */
  cameTo(node: number): number {
    return this.#stampIn[node] === this.#step ? this.#litres[node]! : 0
  }

  /** Row in `sent` of what the node sends on in this step. */
  sentBy(node: number): number {
    const row = node * WATER_FIELDS
    if (this.#stampOut[node] === this.#step) return row
    this.#stampOut[node] = this.#step
    const kind = this.#kinds[node]!
    if (kind === SOURCE) return row
    if (kind === VESSEL) {
      const known = this.#order.opened[node] === 0
      this.#vessels.send({ node, known }, this.sent.subarray(row, row + WATER_FIELDS))
      return row
    }
    if (this.#order.opened[node] === 1) return row
    this.#mix(node)
    return row
  }

  /** After a step: nodes that opened a round take in what came to them. */
  finish(): void {
    for (const { node } of this.#vessels.states) {
      const row = this.sentBy(node)
      if (this.#order.opened[node] === 1) this.#vessels.take(node, this.sent.subarray(row, row + WATER_FIELDS))
    }
    for (const node of this.#order.rounds) this.#keep(node)
  }

  /** Litres kept at nodes and their litres × K, for the balance. */
  kept(): { litres: number; litresK: number } {
    let litres = 0
    let litresK = 0
    for (const [node, kept] of this.#keptL.entries()) {
      litres += kept
      litresK += kept * this.sent[node * WATER_FIELDS + WATER.temperature]!
    }
    return { litres, litresK }
  }

  #mix(node: number): void {
    if (this.#kinds[node] === MIXED) return this.#blend(node)
    const litres = this.cameTo(node)
    if (litres === 0) return
    const row = node * WATER_FIELDS
    for (let field = 0; field < WATER_FIELDS; field++) this.sent[row + field] = this.#sums[row + field]! / litres
    if (this.#kinds[node] === HEATER) this.#heat(node, litres)
  }

  #heat(node: number, litres: number): void {
    const one = this.#nodes[node]!
    if (one.kind !== 'heater') return
    const at = node * WATER_FIELDS + WATER.temperature
    const raised = Math.max(0, one.setpointC - this.sent[at]!)
    this.sent[at]! += raised
    this.heatedLK += raised * litres
  }

  #blend(node: number): void {
    const valve = this.#valves.get(node)
    if (valve === undefined) return
    const { hotNode, coldNode } = valve
    const hot = this.sentBy(hotNode)
    const cold = this.sentBy(coldNode)
    const share = this.hotShare[node]!
    const row = node * WATER_FIELDS
    for (let field = 0; field < WATER_FIELDS; field++)
      this.sent[row + field] = share * this.sent[hot + field]! + (1 - share) * this.sent[cold + field]!
  }

  /** What came in this step is sent on in the next; as much as was sent is replaced by as much as came. */
  #keep(node: number): void {
    const came = this.cameTo(node)
    if (came > 0) this.#keptL[node] = came
    if (came > 0 || this.#valves.has(node)) this.#mix(node)
  }
}
