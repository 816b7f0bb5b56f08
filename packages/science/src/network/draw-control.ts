/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import settings from '@rillmark/reference/network/simulation.json' with { type: 'json' }
import { assumedTemperaturesC } from './assumed-temperatures.ts'
import type { OutletDay } from './day-result.ts'
import type { DrawsByStep } from './draws-by-step.ts'
import type { FlowField } from './flow-field.ts'
import type { Draw, Network } from './network.ts'
import type { NodeWater } from './node-water.ts'
import type { SpoutRecord } from './spout-record.ts'
import type { ComingWater, Transport } from './transport.ts'
import type { TwigFlows } from './twig-flows.ts'
import { WATER, WATER_FIELDS } from './water-change.ts'

const NONE = -1
/** A mixed draw no longer than this is set by habit, see `reference/network/simulation.json`. */
export const HABIT_MINUTES = settings.figures.habitDraw.value
/** Water this much below what was wanted counts as too cold, K. */
const TOO_COLD_K = 1
/** Hot and cold that are this near cannot be told apart by a mixer, K. */
const ALIKE_K = 0.1
/** What a valve that passes nothing is asked about, L. */
const SIP_L = 1e-3

interface Parts {
  network: Network
  field: FlowField
  twigs: TwigFlows
  draws: DrawsByStep
  nodes: NodeWater
  transport: Transport
  spouts: SpoutRecord
}

/**
 * Who draws how much from where in each step. A mixer takes hot and cold in the shares that would give the wanted temperature with
 * the water about to arrive, in a draw too short to wait for it with the water there would be; what the spout then gives is recorded
 * from the water that did arrive.
 *
 * The mains are worked out for several steps at a time, with the mean of what is drawn in them: `foresee` decides the shares of all
 * those steps, `open` then opens the taps of one.
 */
export class DrawControl {
  readonly #of: Parts
  /** By port node: the one pipe that feeds it, or NONE. */
  readonly #feeder: Int32Array
  #open: number[] = []
  /** By pipe: the temperature of its water where it comes from, °C. */
  readonly #usualC: Float64Array
  /** By row of the draws: the share of hot water. */
  readonly #share: Float64Array
  /** By node, of the step in hand: L/min drawn. Of the steps foreseen: L drawn so far, and L/min that leave the mains there on the mean. */
  readonly #demand: Float64Array
  readonly #soFarL: Float64Array
  readonly #mean: Float64Array
  /** By port: L/min that valves take there in the steps foreseen. */
  readonly #valveL: Float64Array
  #drawn: number[] = []
  #roots: number[] = []
  readonly #spout = new Float64Array(WATER_FIELDS)
  readonly #coming: ComingWater = { firstL: 0, litres: 0, litresK: 0 }

  constructor(of: Parts) {
    const nodes = of.network.nodes.length
    this.#of = of
    this.#feeder = feedersOf(of.network, of.twigs)
    this.#usualC = assumedTemperaturesC(of.network)
    this.#share = new Float64Array(of.draws.outlet.length)
    this.#demand = new Float64Array(nodes)
    this.#soFarL = new Float64Array(nodes)
    this.#mean = new Float64Array(nodes)
    this.#valveL = new Float64Array(nodes)
  }

  /** Decides the shares of the draws of some steps of `minutes` from a moment on, and settles the mean flows of the mains in them. */
  foresee(step: number, { steps, moment, minutes }: { steps: number; moment: number; minutes: number }): void {
    const { network, field, draws } = this.#of
    const before = this.#roots
    this.#roots = []
    for (const root of before) this.#mean[root] = 0
    for (const node of this.#drawn) this.#soFarL[node] = 0
    this.#drawn = []
    for (let nth = 0; nth < steps; nth++)
      for (let row = draws.start[step + nth]!; row < draws.start[step + nth + 1]!; row++) {
        const outlet = network.outlets[draws.outlet[row]!]!
        const flow = draws.flowLPerMin[row]!
        const at = { moment: moment + nth * minutes, minutes }
        const share = this.#hotShareOf({ outlet, draw: outlet.draws[draws.draw[row]!]!, flow }, at)
        this.#share[row] = share
        this.#expect(outlet.hotNode, { litres: share * flow * minutes, within: steps * minutes })
        this.#expect(outlet.coldNode, { litres: (1 - share) * flow * minutes, within: steps * minutes })
      }
    for (const root of before) field.setDemand(root, this.#mean[root]!)
    for (const root of this.#roots) field.setDemand(root, this.#mean[root]!)
    field.settle()
    this.#openValves({ moment, minutes: steps * minutes })
  }

  /** Opens the taps of a step that was foreseen. */
  open(step: number): void {
    const { network, draws, twigs } = this.#of
    const before = this.#open
    this.#open = []
    for (const node of before) this.#demand[node] = 0
    for (let row = draws.start[step]!; row < draws.start[step + 1]!; row++) {
      const { hotNode, coldNode } = network.outlets[draws.outlet[row]!]!
      const flow = draws.flowLPerMin[row]!
      const share = this.#share[row]!
      this.#ask(hotNode, share * flow)
      this.#ask(coldNode, (1 - share) * flow)
    }
    for (const node of before) twigs.setDemand(node, this.#demand[node]!)
    for (const node of this.#open) twigs.setDemand(node, this.#demand[node]!)
  }

  /** Records what came out of the spouts in a step of `minutes`. */
  record(step: number, minutes: number): void {
    const { network, draws, nodes, spouts } = this.#of
    for (let row = draws.start[step]!; row < draws.start[step + 1]!; row++) {
      const index = draws.outlet[row]!
      const { hotNode, coldNode, draws: own } = network.outlets[index]!
      const hot = hotNode === undefined ? 0 : this.#demand[hotNode]!
      const cold = coldNode === undefined ? 0 : this.#demand[coldNode]!
      const share = hot + cold === 0 ? 0 : hot / (hot + cold)
      const hotRow = hotNode === undefined ? 0 : nodes.sentBy(hotNode)
      const coldRow = coldNode === undefined ? 0 : nodes.sentBy(coldNode)
      for (let quantity = 0; quantity < WATER_FIELDS; quantity++)
        this.#spout[quantity] = share * nodes.sent[hotRow + quantity]! + (1 - share) * nodes.sent[coldRow + quantity]!
      const wantedC = own[draws.draw[row]!]!.mixToC
      const tooCold =
        wantedC !== undefined && hotNode !== undefined && this.#spout[WATER.temperature]! < wantedC - TOO_COLD_K
      const litres = draws.flowLPerMin[row]! * minutes
      spouts.add({ outlet: index, litres, minutes: draws.minutes[row]!, tooCold }, this.#spout)
    }
  }

  spoutDays(): (OutletDay | undefined)[] {
    return this.#of.network.outlets.map((_, outlet) => this.#of.spouts.dayOf(outlet))
  }

  #expect(node: number | undefined, { litres, within }: { litres: number; within: number }): void {
    if (node === undefined || litres === 0) return
    const root = this.#of.twigs.root[node]!
    if (this.#mean[root] === 0) this.#roots.push(root)
    this.#mean[root]! += litres / within
    if (this.#soFarL[node] === 0) this.#drawn.push(node)
    this.#soFarL[node]! += litres
  }

  #ask(node: number | undefined, lPerMin: number): void {
    if (node === undefined || lPerMin === 0) return
    if (this.#demand[node] === 0) this.#open.push(node)
    this.#demand[node]! += lPerMin
  }

  #hotShareOf(
    { outlet, draw, flow }: { outlet: Network['outlets'][number]; draw: Draw; flow: number },
    at: { moment: number; minutes: number },
  ): number {
    const { hotNode, coldNode } = outlet
    if (hotNode === undefined || coldNode === undefined) return hotNode === undefined ? 0 : 1
    if (draw.mixToC === undefined) return 0.5
    if (draw.minutes <= HABIT_MINUTES) return this.#habitShare(draw.mixToC, { hotNode, coldNode })
    const litres = flow * at.minutes
    return shareFor(draw.mixToC, {
      hotC: this.#comingC(hotNode, { litres, moment: at.moment }),
      coldC: this.#comingC(coldNode, { litres: litres / 2, moment: at.moment }),
    })
  }

  /** Who draws for a moment sets the mixer as ever, for water that has come to its temperature, and does not wait for it. */
  #habitShare(wantedC: number, { hotNode, coldNode }: { hotNode: number; coldNode: number }): number {
    const usualC = (node: number): number =>
      this.#usualC[this.#feeder[node]!] ?? this.#of.nodes.sent[node * WATER_FIELDS + WATER.temperature]!
    return shareFor(wantedC, { hotC: usualC(hotNode), coldC: usualC(coldNode) })
  }

  /**
   * Valves, listed downstream first: what one sends out is known once those that take from it are set. A port may serve others too,
   * drawn at or beyond it: what a valve takes there comes on top, and all of it mixes there.
   */
  #openValves(at: { moment: number; minutes: number }): void {
    const { network, field, nodes } = this.#of
    for (const { hotNode, coldNode } of network.valves) for (const port of [hotNode, coldNode]) this.#valveL[port] = 0
    for (const { hotNode, coldNode, mixedNode, setpointC } of network.valves) {
      const flow = field.outflowOf(mixedNode)
      const comingC = (port: number): number => {
        const litres = Math.max((this.#mean[port]! + this.#valveL[port]! + flow) * at.minutes, SIP_L)
        return this.#comingC(port, { litres, moment: at.moment, firstL: 0 })
      }
      const share = shareFor(setpointC, { hotC: comingC(hotNode), coldC: comingC(coldNode) })
      nodes.hotShare[mixedNode] = share
      nodes.mixedL[mixedNode] = flow * at.minutes
      this.#take(hotNode, share * flow)
      this.#take(coldNode, (1 - share) * flow)
      field.settle()
    }
  }

  #take(port: number, lPerMin: number): void {
    this.#valveL[port]! += lPerMin
    this.#of.field.setDemand(port, this.#mean[port]! + this.#valveL[port]!)
  }

  /** Temperature of the next litres to come to a node, °C, along its twig as far as that holds them; behind them comes what was last sent. */
  #comingC(
    node: number,
    { litres, moment, firstL = this.#soFarL[node]! }: { litres: number; moment: number; firstL?: number },
  ): number {
    const { network, nodes, transport, twigs } = this.#of
    let pipe = this.#feeder[node]!
    let here = node
    const coming = this.#coming
    coming.firstL = firstL
    coming.litres = litres
    coming.litresK = 0
    while (pipe !== NONE && coming.litres > 0) {
      const { from, to } = network.pipes[pipe]!
      transport.foresee(coming, { pipe, forward: to === here, moment })
      here = to === here ? from : to
      // what a heater sends is not what came to it
      pipe = network.nodes[here]!.kind === 'junction' ? twigs.feeder[here]! : NONE
    }
    const behindC = nodes.sent[here * WATER_FIELDS + WATER.temperature]!
    return litres <= 0 ? behindC : (coming.litresK + coming.litres * behindC) / litres
  }
}

/** The share of hot water that gives the wanted temperature, 0 to 1. */
function shareFor(wantedC: number, { hotC, coldC }: { hotC: number; coldC: number }): number {
  if (Math.abs(hotC - coldC) < ALIKE_K) return hotC >= wantedC ? 0.5 : 1
  if (hotC < coldC) return wantedC > hotC ? 0.5 : 0
  return Math.min(1, Math.max(0, (wantedC - coldC) / (hotC - coldC)))
}

/** Of a valve's port, what hangs on it is no feeder. */
function feedersOf({ nodes, pipes, valves }: Network, twigs: TwigFlows): Int32Array {
  const feeder = new Int32Array(nodes.length).fill(NONE)
  const degree = new Int32Array(nodes.length)
  const ports = new Set(valves.flatMap(({ hotNode, coldNode }) => [hotNode, coldNode]))
  for (const [index, { from, to }] of pipes.entries())
    for (const [node, far] of [
      [from, to],
      [to, from],
    ] as const) {
      if (ports.has(node) && twigs.feeder[far] === index) continue
      degree[node]!++
      feeder[node] = degree[node] === 1 ? index : NONE
    }
  return feeder
}
