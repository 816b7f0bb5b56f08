/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import { stepped } from './flow-step.ts'
import type { Network } from './network.ts'
import { RunningList } from './running-list.ts'
import type { Twig } from './twigs.ts'

const NONE = -1

/**
 * The flows of twigs (see `twigsOf`): each is what is drawn beyond it, and needs no hydraulics.
 * Wanted because twigs follow every draw from minute to minute, while what they hang on is worked out in longer steps.
 */
export class TwigFlows {
  /** By pipe, L/min, positive from → to; 0 in pipes that are no twig's. */
  readonly flows: Float64Array
  /** The twigs' pipes, the nearest to what they hang on first. */
  readonly list: RunningList
  /** By node: the node on which its twig hangs, itself where it is on none. */
  readonly root: Int32Array
  /** By node: the pipe to the node nearer the source and that node, NONE where it is on no twig; 1 where the pipe points to it. */
  readonly feeder: Int32Array
  readonly near: Int32Array
  readonly #toward: Int8Array
  readonly #drawn: Float64Array
  readonly #placeOf: Int32Array
  readonly #moved: Int32Array
  readonly #noted: Uint8Array
  #movedCount = 0

  /** @param twigs as `twigsOf` finds them */
  constructor(network: Network, twigs: readonly Twig[]) {
    const nodes = network.nodes.length
    this.flows = new Float64Array(network.pipes.length)
    this.list = new RunningList(twigs.length)
    this.root = Int32Array.from(network.nodes.keys())
    this.feeder = new Int32Array(nodes).fill(NONE)
    this.near = new Int32Array(nodes).fill(NONE)
    this.#toward = new Int8Array(nodes)
    this.#drawn = new Float64Array(nodes)
    this.#placeOf = new Int32Array(network.pipes.length)
    this.#moved = new Int32Array(twigs.length)
    this.#noted = new Uint8Array(network.pipes.length)
    for (let at = twigs.length - 1; at >= 0; at--) {
      const { node, pipe, near } = twigs[at]!
      const place = twigs.length - 1 - at
      this.list.pipes[place] = pipe
      this.#placeOf[pipe] = place
      this.root[node] = this.root[near]!
      this.feeder[node] = pipe
      this.near[node] = near
      this.#toward[node] = network.pipes[pipe]!.to === node ? 1 : -1
    }
  }

  /** Sets what is drawn at a node, L/min, 0 or more; at a node on no twig nothing happens. */
  setDemand(node: number, lPerMin: number): void {
    const drawn = stepped(lPerMin)
    const change = drawn - this.#drawn[node]!
    if (change === 0) return
    this.#drawn[node] = drawn
    for (let here = node; this.feeder[here] !== NONE; here = this.near[here]!) {
      const pipe = this.feeder[here]!
      this.flows[pipe]! += this.#toward[here]! * change
      this.list.set(this.#placeOf[pipe]!, this.flows[pipe] !== 0)
      this.#note(pipe)
    }
  }

  /** Pipes whose flow may have changed since this was last asked, each once. */
  takeChanged(): Int32Array {
    const taken = this.#moved.subarray(0, this.#movedCount)
    for (let at = 0; at < taken.length; at++) this.#noted[taken[at]!] = 0
    this.#movedCount = 0
    return taken
  }

  #note(pipe: number): void {
    if (this.#noted[pipe] === 1) return
    this.#noted[pipe] = 1
    this.#moved[this.#movedCount++] = pipe
  }
}
