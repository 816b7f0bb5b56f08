/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import type { Network } from './network.ts'

const NONE = -1

/**
 * The order in which a step goes through the pipes: each after all that bring water to where it starts. Where water goes round, the
 * round is opened at a vessel, or where it passes none at one node, which then sends out what came to it before.
 */
export class FlowOrder {
  /** Pipes, upstream first. */
  readonly pipes: Int32Array
  /** Place of each pipe in `pipes`. */
  readonly place: Int32Array
  /** 1 where a node sends out what it held before the step. */
  readonly opened: Uint8Array
  /** The nodes that hold no water and open a round all the same. */
  rounds: readonly number[] = []
  readonly #network: Network
  readonly #at: { start: Int32Array; pipes: Int32Array }
  /** Mixing valves by port: the node water goes on to. */
  readonly #valveBelow: Int32Array
  /** 1 where the pipe was last ordered as running from → to. */
  readonly #forward: Uint8Array

  constructor(network: Network) {
    const pipes = network.pipes.length
    this.#network = network
    this.pipes = new Int32Array(pipes)
    this.place = new Int32Array(pipes)
    this.opened = new Uint8Array(network.nodes.length)
    this.#forward = new Uint8Array(pipes).fill(1)
    this.#at = pipesAtNodes(network)
    this.#valveBelow = new Int32Array(network.nodes.length).fill(NONE)
    for (const valve of network.valves) {
      this.#valveBelow[valve.hotNode] = valve.mixedNode
      this.#valveBelow[valve.coldNode] = valve.mixedNode
    }
  }

  /** Puts the pipes in order for these flows, if the order in use does not serve them; true where it changed. */
  follow(flows: Float64Array): boolean {
    let turned = false
    for (let pipe = 0; pipe < flows.length; pipe++) {
      const flow = flows[pipe]!
      if (flow === 0) continue
      const forward = flow > 0 ? 1 : 0
      if (forward !== this.#forward[pipe]) {
        this.#forward[pipe] = forward
        turned = true
      }
    }
    if (!turned) return false
    this.sort()
    return true
  }

  sort(): void {
    const { pipes } = this.#network
    const waiting = this.#countInflows(pipes)
    const queue: number[] = []
    const reached = new Uint8Array(waiting.length)
    this.opened.fill(0)
    const open = (node: number): void => {
      reached[node] = 1
      queue.push(node)
    }
    for (let node = 0; node < waiting.length; node++) if (waiting[node] === 0) open(node)
    let done = 0
    let vessel = 0
    let other = 0
    const rounds: number[] = []
    for (let next = 0; ; ) {
      while (next < queue.length) done = this.#pass({ node: queue[next++]!, waiting, done, open })
      while (vessel < waiting.length && (reached[vessel] === 1 || !this.#holdsWater(vessel))) vessel++
      while (vessel === waiting.length && other < waiting.length && reached[other] === 1) other++
      const stuck = vessel < waiting.length ? vessel : other
      if (stuck === waiting.length) break
      this.opened[stuck] = 1
      if (!this.#holdsWater(stuck)) rounds.push(stuck)
      open(stuck)
    }
    this.rounds = rounds
  }

  #holdsWater(node: number): boolean {
    return this.#network.nodes[node]!.kind === 'vessel'
  }

  #countInflows(pipes: Network['pipes']): Int32Array {
    const waiting = new Int32Array(this.#network.nodes.length)
    for (const [index, pipe] of pipes.entries()) waiting[this.#forward[index] === 1 ? pipe.to : pipe.from]!++
    for (const below of this.#valveBelow) if (below !== NONE) waiting[below]!++
    return waiting
  }

  #pass(at: { node: number; waiting: Int32Array; done: number; open: (node: number) => void }): number {
    const { node, waiting, open } = at
    const { start, pipes } = this.#at
    let { done } = at
    const release = (to: number): void => {
      waiting[to]!--
      if (waiting[to] === 0 && this.opened[to] === 0) open(to)
    }
    for (let place = start[node]!; place < start[node + 1]!; place++) {
      const pipe = pipes[place]!
      const { from, to } = this.#network.pipes[pipe]!
      const forward = this.#forward[pipe] === 1
      if ((forward ? from : to) !== node) continue
      this.pipes[done] = pipe
      this.place[pipe] = done++
      release(forward ? to : from)
    }
    if (this.#valveBelow[node] !== NONE) release(this.#valveBelow[node]!)
    return done
  }
}

function pipesAtNodes({ nodes, pipes }: Network): { start: Int32Array; pipes: Int32Array } {
  const start = new Int32Array(nodes.length + 1)
  for (const { from, to } of pipes) {
    start[from + 1]!++
    start[to + 1]!++
  }
  for (let node = 0; node < nodes.length; node++) start[node + 1]! += start[node]!
  const next = start.slice()
  const listed = new Int32Array(pipes.length * 2)
  for (const [index, { from, to }] of pipes.entries()) {
    listed[next[from]!++] = index
    listed[next[to]!++] = index
  }
  return { start, pipes: listed }
}
