import type { PipeLosses } from './chain-heads.ts'
import { chainsOf } from './chains.ts'
import type { FlowField } from './flow-field.ts'
import { stepped } from './flow-step.ts'
import type { Network } from './network.ts'
import { pipeLosses } from './pipe-losses.ts'
import { RingSolver } from './ring-solver.ts'
import { type Blocks, type Graph, incidenceOf, takeApart } from './take-apart.ts'

export interface FlowFieldOptions {
  /** Error allowed in the flows of a set of rings, as a share of the largest of them; 1e-6 where left out. */
  errorShare?: number
  /** Temperature of all water; where left out it is what the network's sources and heaters give. */
  temperatureC?: number
}

const ERROR_SHARE = 1e-6
/** What may be missing or too much in water that no source holds in balance (L/min). */
const UNBALANCED_L_PER_MIN = 1e-6

/**
 * Steady flows of a network, kept up as demands change.
 * Wanted because a day of draws asks for the flows thousands of times.
 *
 * Mass decides the flow of every pipe that lies on no ring: a change is carried from its node to the source. In rings the head
 * lost is what the pumps give (Darcy-Weisbach, see `frictionFactor`; fittings K·v²/2g; pumps H − c·q²). Sources and the outlets
 * of mixing valves all hold the same head.
 *
 * Special cases: pipes of fixed flow are draws at one end and supplies at the other. A check valve lets nothing back. Flows are
 * whole multiples of 2⁻³² L/min, so that mass is kept exactly.
 *
 * @param network its pipes and nodes; what is drawn begins as nothing
 * @throws RangeError for pipes that cannot be, for fixed flows that cannot be balanced; from `settle` for draws that no source feeds
 * @source epanet-2-2-friction
 * @source swamee-jain
 */
export function makeFlowField(network: Network, options: FlowFieldOptions = {}): FlowField {
  return new Field(network, options)
}

class Field implements FlowField {
  readonly flows: Float64Array
  readonly #network: Network
  readonly #errorShare: number
  readonly #oneWay: Int32Array
  readonly #places: Places
  readonly #rings: readonly RingSolver[]
  /** By place: what leaves the water there and beyond; the pipe or the rings it hangs on. */
  readonly #drawn: Float64Array
  readonly #pending: Float64Array
  readonly #touched: Uint8Array
  readonly #touchedRings: Int32Array
  #touchedCount = 0
  /** By node. */
  readonly #demand: Float64Array
  readonly #settled: Float64Array
  readonly #waiting: Uint8Array
  readonly #changed: Int32Array
  #changedCount = 0
  /** Pipes whose flow was touched since `takeChanged`. */
  readonly #moved: Int32Array
  readonly #noted: Uint8Array
  #movedCount = 0

  constructor(network: Network, { errorShare = ERROR_SHARE, temperatureC }: FlowFieldOptions) {
    const { nodes, pipes } = network
    this.#network = network
    this.#errorShare = errorShare
    const losses = pipeLosses(network, temperatureC)
    this.#places = placesOf(network)
    this.flows = new Float64Array(pipes.length)
    this.#drawn = new Float64Array(this.#places.count)
    this.#pending = new Float64Array(this.#places.count)
    this.#rings = ringsOf(this.#places, { losses, drawn: this.#drawn })
    this.#touched = new Uint8Array(this.#rings.length).fill(1)
    this.#touchedRings = Int32Array.from(this.#rings.keys())
    this.#touchedCount = this.#rings.length
    this.#demand = new Float64Array(nodes.length)
    this.#settled = new Float64Array(nodes.length)
    this.#waiting = new Uint8Array(nodes.length)
    this.#changed = new Int32Array(nodes.length)
    this.#moved = Int32Array.from(pipes.keys())
    this.#noted = new Uint8Array(pipes.length).fill(1)
    this.#movedCount = pipes.length
    this.#oneWay = Int32Array.from(losses.oneWay.keys().filter((pipe) => losses.oneWay[pipe] === 1))
    this.#fix()
    this.settle()
  }

  /** Fixed flows leave one end and come in at the other, for good. */
  #fix(): void {
    const { ofNode } = this.#places
    this.#network.pipes.forEach(({ from, to, fixedFlowLPerMin }, pipe) => {
      if (fixedFlowLPerMin === undefined) return
      const flow = stepped(fixedFlowLPerMin)
      this.flows[pipe] = flow
      const [a, b] = [ofNode[from] as number, ofNode[to] as number]
      this.#pending[a] = (this.#pending[a] as number) + flow
      this.#pending[b] = (this.#pending[b] as number) - flow
    })
    this.#sweep()
  }

  setDemand = (node: number, lPerMin: number): void => {
    if (!(lPerMin >= 0 && lPerMin < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`Cannot draw water at node ${node} because a draw is 0 L/min or more: got ${lPerMin}`)
    }
    this.#demand[node] = stepped(lPerMin)
    if (this.#waiting[node] !== 0) return
    this.#waiting[node] = 1
    this.#changed[this.#changedCount] = node
    this.#changedCount += 1
  }

  settle = (): void => {
    this.#carryChanges()
    for (let at = 0; at < this.#touchedCount; at += 1) {
      const ring = this.#touchedRings[at] as number
      this.#touched[ring] = 0
      this.#rings[ring]?.settle(this.flows, this.#errorShare)
      this.#noteRing(ring)
    }
    this.#touchedCount = 0
    this.#checkRoots()
    this.#checkOneWay()
  }

  takeChanged = (): Int32Array => {
    const taken = this.#moved.subarray(0, this.#movedCount)
    for (const pipe of taken) this.#noted[pipe] = 0
    this.#movedCount = 0
    return taken
  }

  #noteRing(ring: number): void {
    const { ringBlocks, blocks } = this.#places
    const block = ringBlocks[ring] as number
    const end = blocks.start[block + 1] as number
    for (let at = blocks.start[block] as number; at < end; at += 1) this.#note(blocks.pipes[at] as number)
  }

  #note(pipe: number): void {
    if (this.#noted[pipe] === 1) return
    this.#noted[pipe] = 1
    this.#moved[this.#movedCount] = pipe
    this.#movedCount += 1
  }

  outflowOf = (node: number): number => {
    const { start, pipes } = this.#places.incidence
    let sum = this.#demand[node] as number
    for (let at = start[node] as number; at < (start[node + 1] as number); at += 1) {
      const pipe = pipes[at] as number
      const { from, to } = this.#network.pipes[pipe] as Network['pipes'][number]
      if (from === to) continue
      sum += from === node ? (this.flows[pipe] as number) : -(this.flows[pipe] as number)
    }
    return sum
  }

  /** Walks each change to its root, or sweeps all places once where that is shorter. */
  #carryChanges(): void {
    const { ofNode, depth, count } = this.#places
    let steps = 0
    for (let at = 0; at < this.#changedCount; at += 1) {
      steps += depth[ofNode[this.#changed[at] as number] as number] as number
    }
    const walks = steps < count
    for (let at = 0; at < this.#changedCount; at += 1) {
      const node = this.#changed[at] as number
      this.#waiting[node] = 0
      const change = (this.#demand[node] as number) - (this.#settled[node] as number)
      if (change === 0) continue
      this.#settled[node] = this.#demand[node] as number
      const place = ofNode[node] as number
      if (walks) this.#walk(place, change)
      else this.#pending[place] = (this.#pending[place] as number) + change
    }
    this.#changedCount = 0
    if (!walks) this.#sweep()
  }

  #walk(place: number, change: number): void {
    const { up } = this.#places
    for (let here = place; here >= 0; here = up[here] as number) this.#draw(here, change)
  }

  #sweep(): void {
    const { order, up } = this.#places
    for (let at = order.length - 1; at >= 0; at -= 1) {
      const place = order[at] as number
      const change = this.#pending[place] as number
      if (change === 0) continue
      this.#pending[place] = 0
      this.#draw(place, change)
      const above = up[place] as number
      if (above >= 0) this.#pending[above] = (this.#pending[above] as number) + change
    }
  }

  #draw(place: number, change: number): void {
    this.#drawn[place] = (this.#drawn[place] as number) + change
    const pipe = this.#places.hangsOn[place] as number
    if (pipe >= 0) {
      this.flows[pipe] = (this.flows[pipe] as number) + (this.#places.toward[place] as number) * change
      this.#note(pipe)
      return
    }
    const ring = this.#places.ringOf[place] as number
    if (ring < 0 || this.#touched[ring] === 1) return
    this.#touched[ring] = 1
    this.#touchedRings[this.#touchedCount] = ring
    this.#touchedCount += 1
  }

  /** Water that no source holds in balance must balance by itself. */
  #checkRoots(): void {
    for (const root of this.#places.sourceless) {
      const left = this.#drawn[root] as number
      if (Math.abs(left) <= UNBALANCED_L_PER_MIN) continue
      const node = this.#network.nodes[this.#places.ofNode.indexOf(root)]
      throw new RangeError(
        `Cannot balance the water around node "${node?.id}" because no source feeds it but through pipes of fixed flow: got ${left} L/min more leaving than coming in`,
      )
    }
  }

  #checkOneWay(): void {
    for (let at = 0; at < this.#oneWay.length; at += 1) {
      const pipe = this.#oneWay[at] as number
      if ((this.flows[pipe] as number) >= -UNBALANCED_L_PER_MIN) continue
      throw new RangeError(
        `Cannot bring water through pipe "${this.#network.pipes[pipe]?.id}" because its check valve is shut in that direction: got ${this.flows[pipe]} L/min`,
      )
    }
  }
}

/** The network as places: all sources are one, place 0, because they hold the same head; every other node is its own. */
interface Places {
  count: number
  ofNode: Int32Array
  incidence: ReturnType<typeof incidenceOf>
  graph: Graph
  blocks: Blocks
  order: Int32Array
  /** The place on which a place hangs, −1 at roots, and how many of them are above it. */
  up: Int32Array
  depth: Int32Array
  /** The pipe on which a place hangs, −1 where it is a set of rings or nothing, and 1 where that pipe points to the place. */
  hangsOn: Int32Array
  toward: Int8Array
  ringOf: Int32Array
  ringBlocks: readonly number[]
  sourceless: readonly number[]
}

function placesOf({ nodes, pipes }: Network): Places {
  let count = 1
  const ofNode = Int32Array.from(nodes, ({ kind }) => {
    if (kind === 'source' || kind === 'mixed') return 0
    count += 1
    return count - 1
  })
  const ends = (of: 'from' | 'to') => Int32Array.from(pipes, (pipe) => pipe[of])
  const [from, to] = [ends('from'), ends('to')]
  const placed = (node: number) => ofNode[node] as number
  const fixed = Uint8Array.from(pipes, ({ fixedFlowLPerMin }) => (fixedFlowLPerMin === undefined ? 0 : 1))
  const graph = { places: count, from: from.map(placed), to: to.map(placed), skip: fixed }
  const blocks = takeApart(graph)
  const incidence = incidenceOf({ places: nodes.length, from, to, skip: new Uint8Array(pipes.length) })
  return { count, ofNode, incidence, graph, blocks, order: blocks.order, ...hanging(graph, blocks) }
}

function hanging(graph: Graph, { start, pipes, top, hangsIn, order }: Blocks) {
  const up = new Int32Array(graph.places).fill(-1)
  const depth = new Int32Array(graph.places)
  const hangsOn = new Int32Array(graph.places).fill(-1)
  const toward = new Int8Array(graph.places)
  const ringOf = new Int32Array(graph.places).fill(-1)
  const ringAt = new Int32Array(top.length).fill(-1)
  const ringBlocks: number[] = []
  const sourceless: number[] = []
  for (let block = 0; block < top.length; block += 1) {
    const first = pipes[start[block] as number] as number
    const single = (start[block + 1] as number) - (start[block] as number) === 1
    if (single && graph.from[first] !== graph.to[first]) continue
    ringAt[block] = ringBlocks.length
    ringBlocks.push(block)
  }
  for (const place of order) {
    const block = hangsIn[place] as number
    if (block < 0) {
      if (place !== 0) sourceless.push(place)
      continue
    }
    up[place] = top[block] as number
    depth[place] = (depth[up[place] as number] as number) + 1
    ringOf[place] = ringAt[block] as number
    if (ringAt[block] !== -1) continue
    const pipe = pipes[start[block] as number] as number
    hangsOn[place] = pipe
    toward[place] = graph.to[pipe] === place ? 1 : -1
  }
  return { up, depth, hangsOn, toward, ringOf, ringBlocks, sourceless }
}

function ringsOf(
  { graph, blocks, ringBlocks }: Places,
  given: { losses: PipeLosses; drawn: Float64Array },
): RingSolver[] {
  return ringBlocks.map((block) => {
    const pipes = blocks.pipes.slice(blocks.start[block], blocks.start[block + 1])
    const from = pipes.map((pipe) => graph.from[pipe] as number)
    const to = pipes.map((pipe) => graph.to[pipe] as number)
    const chains = chainsOf({ pipes, from, to, top: blocks.top[block] as number })
    return new RingSolver({ chains, ...given })
  })
}
