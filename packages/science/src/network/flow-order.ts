/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Network } from './network.ts'
import { RunningList } from './running-list.ts'
import type { Twig } from './twigs.ts'

const NONE = -1
const NOWHERE = 2 ** 30
/** Flows below this (L/min) are rest: a drop in an hour. */
export const REST_L_PER_MIN = 1e-5

/**
 * The order in which a step goes through the pipes: each after all that bring water to where it starts. Where water goes round, the
 * round is opened at a vessel, or where it passes none at one node, which then sends out what came to it before.
 *
 * What runs to draws only (see `twigsOf`) comes after all else and keeps its order: draws take water outward there, never back. When flows turn, only the part of the order
 * between the ends of the turned pipes is put right.
 */
export class FlowOrder {
  /** Pipes, upstream first. */
  readonly list: RunningList
  /** 1 where a node sends out what it held before the step. */
  readonly opened: Uint8Array
  /** The nodes that hold no water and open a round all the same. */
  rounds: readonly number[] = []
  /** Pipes around each node; first those, up to `#mainEnd`, that are no twig's. */
  readonly #start: Int32Array
  readonly #around: Int32Array
  readonly #mainEnd: Int32Array
  /** Nodes that are no twigs: they hold the first places. */
  readonly #mains: number
  readonly #isTwig: Uint8Array
  readonly #from: Int32Array
  readonly #to: Int32Array
  /** By node: the mixed node that a valve's port sends on to; NONE elsewhere. */
  readonly #below: Int32Array
  /** −1, 0, 1: how a pipe runs, and the node it last took water from. */
  readonly #sign: Int8Array
  readonly #upstream: Int32Array
  readonly #placeOfPipe: Int32Array
  readonly #nodeAt: Int32Array
  readonly #placeOf: Int32Array
  /** By place of a node: where the pipes that leave it begin. */
  readonly #groups: Int32Array
  readonly #between: Int32Array
  readonly #vessels: readonly number[]
  readonly #portNodes: readonly number[]
  /** By place in `#around`: the node at the pipe's other end. */
  readonly #far: Int32Array
  readonly #waiting: Int32Array
  /** 1 where a node is placed or about to be: all of them between one ordering and the next. */
  readonly #reached: Uint8Array
  readonly #stack: Int32Array
  #stacked = 0
  #dirtyFrom = NOWHERE
  #dirtyTo = NONE

  /** @param twigs as `twigsOf` finds them */
  constructor(network: Network, twigs: readonly Twig[]) {
    const nodes = network.nodes.length
    const pipes = network.pipes.length
    this.list = new RunningList(pipes)
    this.#placeOfPipe = new Int32Array(pipes)
    this.opened = new Uint8Array(nodes)
    this.#from = Int32Array.from(network.pipes, ({ from }) => from)
    this.#to = Int32Array.from(network.pipes, ({ to }) => to)
    this.#mains = nodes - twigs.length
    this.#isTwig = new Uint8Array(pipes)
    for (const { pipe } of twigs) this.#isTwig[pipe] = 1
    this.#start = new Int32Array(nodes + 1)
    this.#around = pipesAround(network, { start: this.#start, isTwig: this.#isTwig })
    this.#mainEnd = mainEndsOf({ start: this.#start, around: this.#around, isTwig: this.#isTwig })
    this.#below = new Int32Array(nodes).fill(NONE)
    for (const { hotNode, coldNode, mixedNode } of network.valves)
      for (const port of [hotNode, coldNode]) this.#below[port] = mixedNode
    this.#sign = new Int8Array(pipes)
    this.#upstream = this.#from.slice()
    this.#nodeAt = new Int32Array(nodes)
    this.#placeOf = new Int32Array(nodes)
    this.#groups = new Int32Array(nodes + 1)
    this.#between = new Int32Array(nodes)
    this.#vessels = [...network.nodes.keys()].filter((node) => network.nodes[node]!.kind === 'vessel')
    this.#portNodes = [...network.nodes.keys()].filter((node) => this.#below[node] !== NONE)
    this.#far = farEnds(network, { start: this.#start, around: this.#around })
    this.#waiting = new Int32Array(nodes)
    this.#reached = new Uint8Array(nodes)
    this.#stack = new Int32Array(nodes)
    this.#placeTwigs(twigs)
    this.#sort()
    this.#list(0, nodes - 1)
  }

  /** Puts the pipes in order for these flows, of which only the changed need be looked at. */
  follow(flows: Float64Array, changed: Int32Array): void {
    let first = NOWHERE
    let last = NONE
    for (let at = 0; at < changed.length; at++) {
      const pipe = changed[at]!
      const now = signOf(flows[pipe]!)
      if (now === this.#sign[pipe]) continue
      this.#sign[pipe] = now
      this.list.set(this.#placeOfPipe[pipe]!, now !== 0)
      if (now === 0 || !this.#upsets(pipe)) continue
      first = Math.min(first, this.#placeOf[this.#downOf(pipe)]!)
      last = Math.max(last, this.#placeOf[this.#upOf(pipe)]!)
    }
    // a round that is opened at a node of no volume may have closed: all is ordered anew to find out
    if (last !== NONE && (this.rounds.length > 0 || !this.#sortBetween(first, last))) this.#sort()
    else if (this.#dirtyTo !== NONE) this.#list(this.#dirtyFrom, this.#dirtyTo)
  }

  #upOf(pipe: number): number {
    return this.#sign[pipe] === 1 ? this.#from[pipe]! : this.#to[pipe]!
  }

  #downOf(pipe: number): number {
    return this.#sign[pipe] === 1 ? this.#to[pipe]! : this.#from[pipe]!
  }

  /** A pipe begins to run, or runs the other way: true where the order does not serve it. */
  #upsets(pipe: number): boolean {
    const up = this.#upOf(pipe)
    const down = this.#downOf(pipe)
    if (this.#upstream[pipe] !== up) {
      this.#upstream[pipe] = up
      this.#touch(this.#placeOf[up]!)
      this.#touch(this.#placeOf[down]!)
    }
    return this.#isTwig[pipe] === 0 && this.opened[down] === 0 && this.#placeOf[up]! >= this.#placeOf[down]!
  }

  /** Each after the one it hangs on, the nearest last: what hangs together stays together in memory. */
  #placeTwigs(twigs: readonly Twig[]): void {
    const isTwig = new Set(twigs.map(({ node }) => node))
    const mains = [...this.opened.keys()].filter((node) => !isTwig.has(node))
    this.#nodeAt.set(mains)
    for (const [at, { node }] of twigs.entries()) {
      const place = this.opened.length - 1 - at
      this.#nodeAt[place] = node
      this.#placeOf[node] = place
      this.#reached[node] = 1
    }
  }

  #touch(place: number): void {
    if (place < this.#dirtyFrom) this.#dirtyFrom = place
    if (place > this.#dirtyTo) this.#dirtyTo = place
  }

  /** Orders the nodes between two places anew; false where water goes round among them. */
  #sortBetween(first: number, last: number): boolean {
    const between = this.#between
    between.set(this.#nodeAt.subarray(first, last + 1))
    const count = last - first + 1
    for (let at = 0; at < count; at++) {
      this.#waiting[between[at]!] = 0
      this.#reached[between[at]!] = 0
    }
    for (let at = 0; at < count; at++) this.#countAfter(between[at]!)
    for (let at = count - 1; at >= 0; at--) {
      const node = between[at]!
      if (this.#waiting[node] === 0 || this.opened[node] === 1) this.#open(node)
    }
    if (this.#place(first) <= last) return false
    this.#touch(first)
    this.#touch(last)
    return true
  }

  /** What comes after a node waits for it. */
  #countAfter(node: number): void {
    const last = this.#mainEnd[node]!
    for (let at = this.#start[node]!; at < last; at++) {
      const pipe = this.#around[at]!
      if (this.#sign[pipe] !== 0 && this.#upstream[pipe] === node) this.#waiting[this.#far[at]!]!++
    }
    const below = this.#below[node]!
    if (below !== NONE) this.#waiting[below]!++
  }

  /** Orders everything; a round is opened at a vessel if there is one. */
  #sort(): void {
    const nodes = this.#mains
    const waiting = this.#countInflows()
    const reached = this.#reached
    for (let place = 0; place < nodes; place++) reached[this.#nodeAt[place]!] = 0
    const rounds: number[] = []
    this.opened.fill(0)
    for (let node = reached.length - 1; node >= 0; node--)
      if (waiting[node] === 0 && reached[node] === 0) this.#open(node)
    let placed = this.#place(0)
    let vessel = 0
    let other = 0
    while (placed < nodes) {
      while (vessel < this.#vessels.length && reached[this.#vessels[vessel]!] === 1) vessel++
      const atVessel = vessel < this.#vessels.length
      if (!atVessel) other = reached.indexOf(0, other)
      const stuck = atVessel ? this.#vessels[vessel]! : other
      this.opened[stuck] = 1
      if (!atVessel) rounds.push(stuck)
      this.#open(stuck)
      placed = this.#place(placed)
    }
    this.rounds = rounds
    this.#list(0, Math.max(nodes - 1, this.#dirtyTo))
  }

  #open(node: number): void {
    this.#reached[node] = 1
    this.#stack[this.#stacked++] = node
  }

  /** Places all that is open and what comes after it; the number then placed. */
  #place(from: number): number {
    let placed = from
    // the last opened first: what lies along one way through the building stays together in memory
    while (this.#stacked > 0) {
      const node = this.#stack[--this.#stacked]!
      this.#nodeAt[placed] = node
      this.#placeOf[node] = placed++
      const last = this.#mainEnd[node]!
      for (let at = this.#start[node]!; at < last; at++) {
        const pipe = this.#around[at]!
        if (this.#sign[pipe] !== 0 && this.#upstream[pipe] === node) this.#oneLess(this.#far[at]!)
      }
      const below = this.#below[node]!
      if (below !== NONE) this.#oneLess(below)
    }
    return placed
  }

  #oneLess(node: number): void {
    const waiting = this.#waiting[node]! - 1
    this.#waiting[node] = waiting
    if (waiting === 0 && this.#reached[node] === 0) this.#open(node)
  }

  #countInflows(): Int32Array {
    const waiting = this.#waiting.fill(0)
    for (let pipe = 0; pipe < this.#sign.length; pipe++) {
      const sign = this.#isTwig[pipe] === 1 ? 0 : this.#sign[pipe]!
      if (sign === 1) waiting[this.#to[pipe]!]!++
      else if (sign === -1) waiting[this.#from[pipe]!]!++
    }
    for (let port = 0; port < this.#portNodes.length; port++) waiting[this.#below[this.#portNodes[port]!]!]!++
    return waiting
  }

  /** Lists the pipes that leave the nodes of these places; between a first and a last touched place their number stays. */
  #list(first: number, last: number): void {
    const { list } = this
    let next = this.#groups[first]!
    for (let place = first; place <= last; place++) {
      const node = this.#nodeAt[place]!
      this.#groups[place] = next
      const end = this.#start[node + 1]!
      for (let at = this.#start[node]!; at < end; at++) {
        const pipe = this.#around[at]!
        if (this.#upstream[pipe] !== node) continue
        list.pipes[next] = pipe
        this.#placeOfPipe[pipe] = next
        list.set(next++, this.#sign[pipe] !== 0)
      }
    }
    if (last >= 0) this.#groups[last + 1] = next
    this.#dirtyFrom = NOWHERE
    this.#dirtyTo = NONE
  }
}

const signOf = (flow: number): -1 | 0 | 1 => (flow > REST_L_PER_MIN ? 1 : flow < -REST_L_PER_MIN ? -1 : 0)

/** Pipes by node; those of a node begin at `start[node]`, twigs last. A pipe from a node to itself comes once. */
function pipesAround(
  { nodes, pipes }: Network,
  { start, isTwig }: { start: Int32Array; isTwig: Uint8Array },
): Int32Array {
  for (const { from, to } of pipes) {
    start[from + 1]!++
    if (to !== from) start[to + 1]!++
  }
  for (let node = 0; node < nodes.length; node++) start[node + 1]! += start[node]!
  const next = start.slice()
  const around = new Int32Array(start[nodes.length]!)
  for (const wanted of [0, 1])
    for (const [index, { from, to }] of pipes.entries()) {
      if (isTwig[index] !== wanted) continue
      around[next[from]!++] = index
      if (to !== from) around[next[to]!++] = index
    }
  return around
}

/** By node: where the first twig is among the pipes around it. */
function mainEndsOf(of: { start: Int32Array; around: Int32Array; isTwig: Uint8Array }): Int32Array {
  return of.start.subarray(1).map((end, node) => {
    let last = end
    while (last > of.start[node]! && of.isTwig[of.around[last - 1]!] === 1) last--
    return last
  })
}

/** By place in `around`: where the pipe goes from there. */
function farEnds({ nodes, pipes }: Network, { start, around }: { start: Int32Array; around: Int32Array }): Int32Array {
  const far = new Int32Array(around.length)
  for (let node = 0; node < nodes.length; node++)
    for (let at = start[node]!; at < start[node + 1]!; at++) {
      const { from, to } = pipes[around[at]!]!
      far[at] = from === node ? to : from
    }
  return far
}
