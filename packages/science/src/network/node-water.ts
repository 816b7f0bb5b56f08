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
/**
 * A node's row, side by side in memory: sums of volume × quantity of what came in a step, its litres; the steps in which water last
 * came, and was last sent on.
 */
const LITRES = WATER_FIELDS
const CAME_IN = WATER_FIELDS + 1
const SENT_ON = WATER_FIELDS + 2
const COLUMNS = 8
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
  readonly #rows: Float64Array
  readonly #nodes: readonly NetworkNode[]
  readonly #kinds: Uint8Array
  readonly #vessels: VesselBank
  readonly #order: FlowOrder
  /** Litres that a mixing valve sends on in this step, by mixed node. */
  readonly mixedL: Float64Array
  /** The nodes that open a round and keep water, how much, and its litres × K. */
  readonly #keeping = new Set<number>()
  readonly #keptL: Float64Array
  readonly #keptLK: Float64Array
  readonly #before = new Float64Array(WATER_FIELDS)
  /** By mixed node: the share of hot water a valve takes in this step. */
  readonly hotShare: Float64Array
  readonly #valves: ReadonlyMap<number, NetworkValve>
  #step = NEVER
  /** Litres × K put in by heaters that hold no water. */
  heatedLK = 0
  /** Litres × K of the water that nodes were granted to keep; see `#keep`. */
  addedLK = 0

  constructor(of: { network: Network; vessels: VesselBank; order: FlowOrder }) {
    const { nodes } = of.network
    this.#nodes = nodes
    this.#kinds = Uint8Array.from(nodes, ({ kind }) => KINDS[kind])
    this.#vessels = of.vessels
    this.#order = of.order
    this.sent = new Float64Array(nodes.length * WATER_FIELDS)
    this.#rows = new Float64Array(nodes.length * COLUMNS).fill(NEVER)
    this.#keptL = new Float64Array(nodes.length)
    this.#keptLK = new Float64Array(nodes.length)
    this.mixedL = new Float64Array(nodes.length)
    this.hotShare = new Float64Array(nodes.length)
    this.#valves = new Map(of.network.valves.map((valve) => [valve.mixedNode, valve]))
    for (const [index, node] of nodes.entries())
      if (node.kind === 'source') {
        this.sent[index * WATER_FIELDS + WATER.temperature] = node.temperatureC
        this.sent[index * WATER_FIELDS + WATER.residual] = node.residualMgPerL
      }
  }

  /** Begins a step. Steps of twigs lie within one of the mains, whose number is the higher: what the mains sent holds in them. */
  begin(step: number): void {
    this.#step = step
  }

  /** Adds what a pipe brought: sums of volume × quantity, and the litres after them. */
  bring(node: number, back: number, sums: Float64Array): void {
    if (this.#kinds[node] === VESSEL) return this.#bringVessel(node, back, sums)
    const rows = this.#rows
    const row = node * COLUMNS
    if (rows[row + CAME_IN] !== this.#step) {
      rows[row + CAME_IN] = this.#step
      for (let field = 0; field <= WATER_FIELDS; field++) rows[row + field] = sums[field]!
    } else for (let field = 0; field <= WATER_FIELDS; field++) rows[row + field]! += sums[field]!
  }

  #bringVessel(node: number, back: number, sums: Float64Array): void {
    const { inL, inSums } = this.#vessels.at(node)
    inL[back]! += sums[LITRES]!
    for (let field = 0; field < WATER_FIELDS; field++) inSums[back * WATER_FIELDS + field]! += sums[field]!
  }

  /** Litres that came to a node in this step. */
  cameTo(node: number): number {
    const row = node * COLUMNS
    return this.#rows[row + CAME_IN] === this.#step ? this.#rows[row + LITRES]! : 0
  }

  /** Row in `sent` of what the node sends on in this step. */
  sentBy(node: number): number {
    const row = node * WATER_FIELDS
    if (this.#rows[node * COLUMNS + SENT_ON]! >= this.#step) return row
    this.#rows[node * COLUMNS + SENT_ON] = this.#step
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
    for (const node of this.#keeping) if (this.#order.opened[node] === 0) this.#letGo(node)
  }

  /** Litres × K of the water kept at nodes that open a round. */
  keptLK(): number {
    let sum = 0
    for (const node of this.#keeping) sum += this.#keptLK[node]!
    return sum
  }

  #mix(node: number): void {
    if (this.#kinds[node] === MIXED) return this.#blend(node)
    const litres = this.cameTo(node)
    if (litres === 0) return
    const { sent } = this
    const rows = this.#rows
    const from = node * COLUMNS
    const to = node * WATER_FIELDS
    const perLitre = 1 / litres
    for (let field = 0; field < WATER_FIELDS; field++) sent[to + field] = rows[from + field]! * perLitre
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

  /**
   * A node that opens a round keeps as much water as ever passed it in one step, mixed throughout. What it sent this step is replaced
   * by what came: as much, for the flows of a step are even.
   */
  #keep(node: number): void {
    // what comes back to a source is gone: it sends its own water, always
    if (this.#kinds[node] === SOURCE) return
    const mixed = this.#kinds[node] === MIXED
    const came = mixed ? this.mixedL[node]! : this.cameTo(node)
    if (came <= 0) return
    const row = node * WATER_FIELDS
    const before = this.#before
    for (let field = 0; field < WATER_FIELDS; field++) before[field] = this.sent[row + field]!
    if (came > this.#keptL[node]!) {
      this.#keeping.add(node)
      this.addedLK += (came - this.#keptL[node]!) * before[WATER.temperature]!
      this.#keptL[node] = came
    }
    this.#mix(node)
    const share = came / this.#keptL[node]!
    for (let field = 0; field < WATER_FIELDS; field++)
      this.sent[row + field] = before[field]! + share * (this.sent[row + field]! - before[field]!)
    this.#keptLK[node] = this.#keptL[node]! * this.sent[row + WATER.temperature]!
  }

  /** A node that no longer opens a round keeps nothing. */
  #letGo(node: number): void {
    this.addedLK -= this.#keptLK[node]!
    this.#keptL[node] = 0
    this.#keptLK[node] = 0
    this.#keeping.delete(node)
  }
}
