import type { Chains } from './chains.ts'
import { ChainHeads, type PipeLosses } from './chain-heads.ts'
import { Conductances } from './conductances.ts'
import { stepped } from './flow-step.ts'
import { knotTree, type KnotTree } from './knot-tree.ts'

/** Flows are found to this at best (L/min), a few drops a day. */
const LEAST_ERROR_L_PER_MIN = 1e-7
/** How often valves may open and shut before an answer between the two is taken. */
const MOST_TURNED = 20
const MOST_STEPS = 400
const MOST_TURNS = 80
/** A step that comes out smaller than this share of the one before needs no new factors, where these cost much more than heads. */
const QUICK = 0.5
const COSTLY_FACTORS = 20
/** A step is taken back in part where the head against it grows beyond this share of what drove it. */
const OVERSHOOT = 0.5
/** Shares of the step before at which steps are taken to be halving. */
const HALVING_ABOVE = 0.44
const HALVING_BELOW = 0.52
/** The error left after a step with fresh factors is taken as this many times what the last two steps foretell. */
const SAFETY = 100
const LEAST_LEFT = 1e-3

/**
 * Flows of one block of rings for what is drawn at its places: of all flows that keep the water's mass, the one for which the
 * head lost around every ring is what its pumps give.
 *
 * Newton's method on heads and flows together, on chains of pipes instead of pipes. It starts from the last answer, moved along
 * its tangent. A step that goes too far is cut: what is sought is the least of a convex function, so that it is always found.
 */
export class RingSolver {
  readonly #chains: Chains
  readonly #losses: PipeLosses
  readonly #heads: ChainHeads
  readonly #tree: KnotTree
  readonly #net: Conductances
  readonly #drawn: Float64Array
  readonly #keeps: boolean
  /** By chain: flow into it, its head before the last step; the slope and its inverse in the factors; the step in hand. */
  readonly #flow: Float64Array
  readonly #headBefore: Float64Array
  readonly #metric: Float64Array
  readonly #conductance: Float64Array
  readonly #step: Float64Array
  /** By knot. */
  readonly #inflow: Float64Array
  readonly #knotHead: Float64Array
  readonly #need: Float64Array
  #factorised = false

  /** `drawn`: what leaves the block at each place of the network, L/min, kept by the caller. */
  constructor({ chains, losses, drawn }: { chains: Chains; losses: PipeLosses; drawn: Float64Array }) {
    const [slots, count, knots] = [chains.pipe.length, chains.from.length, chains.knots.length]
    this.#chains = chains
    this.#losses = losses
    this.#drawn = drawn
    this.#heads = new ChainHeads({ chains, losses, drawn })
    const by = (length: number) => new Float64Array(length)
    this.#flow = by(count)
    this.#headBefore = by(count)
    this.#metric = by(count)
    this.#conductance = by(count)
    this.#step = by(count)
    this.#inflow = by(knots)
    this.#knotHead = by(knots)
    this.#need = by(knots)
    this.#tree = knotTree({ chains, weight: this.#heads.slope, last: this.#heads.shutting() })
    this.#net = new Conductances({ places: knots, from: chains.from, to: chains.to })
    this.#keeps = this.#net.work > COSTLY_FACTORS * slots
  }

  /** Finds the flows and writes them by pipe; `share` is the error allowed, as a share of the block's largest flow. */
  settle(flows: Float64Array, share: number): void {
    const still = this.#heads.drain()
    if (still && !this.#heads.pumped) this.#flow.fill(0)
    else this.#solve(share)
    this.#write(flows)
  }

  #solve(share: number): void {
    const heads = this.#heads
    const { valved } = heads
    let before = this.#predict()
    let slope = 0
    let kept = false
    let turns = 0
    if (valved) heads.turnValves(this.#flow)
    for (let step = 0; step < MOST_STEPS; step += 1) {
      heads.evaluate(this.#flow)
      if (slope < 0 && this.#goBack(slope)) {
        kept = false
        before = 0
        // on the way back a valve may have shut, from where the step that opens it is tiny
        if (valved) heads.turnValves(this.#flow)
      }
      if (!kept) this.#factorise()
      this.#solveStep()
      slope = -this.#driving()
      const size = this.#largest(this.#step)
      const ratio = before > 0 ? size / before : 1
      slope *= this.#stretch(ratio)
      this.#take(1)
      // with fresh factors errors go with the square of the step, where no valve opens or shuts
      const left = kept || valved ? size : size * Math.min(1, Math.max(LEAST_LEFT, SAFETY * ratio * ratio))
      const allowed = Math.max(share * this.#largest(this.#flow), LEAST_ERROR_L_PER_MIN)
      // a shut valve is so steep that the step which opens it is tiny: what follows is not
      const turned = valved && heads.turnValves(this.#flow) && turns < MOST_TURNED
      if (turned) turns += 1
      if (left <= allowed && !turned) return this.#finish(allowed)
      kept = this.#keeps && ratio < QUICK
      before = size
    }
    throw new RangeError(
      `Cannot find the flow of pipe "${this.#losses.id[this.#chains.pipe[0] as number]}" because its rings do not come to rest: got ${this.#largest(this.#step)} L/min still changing after ${MOST_STEPS} steps`,
    )
  }

  /** Far out, where heads go with the square of the flow, every step goes half the way that is left: this goes all of it. */
  #stretch(ratio: number): number {
    if (ratio < HALVING_ABOVE || ratio > HALVING_BELOW) return 1
    const by = 1 / (1 - ratio)
    for (let chain = 0; chain < this.#step.length; chain += 1) this.#step[chain] = (this.#step[chain] as number) * by
    return by
  }

  /** Where the last step went too far: back to where the head along it is next to nothing (false position). True where it did. */
  #goBack(slope: number): boolean {
    let highHead = slope + this.#gained()
    if (highHead <= -slope * OVERSHOOT) return false
    let [low, lowHead, high, here] = [0, slope, 1, 1]
    let side = 0
    for (let turn = 0; turn < MOST_TURNS; turn += 1) {
      const next = low + ((high - low) * lowHead) / (lowHead - highHead)
      this.#take(next - here)
      here = next
      this.#heads.evaluate(this.#flow)
      const head = slope + this.#gained()
      if (Math.abs(head) <= -slope * OVERSHOOT) break
      if (head > 0) {
        if (side > 0) lowHead /= 2
        high = next
        highHead = head
        side = 1
      } else {
        if (side < 0) highHead /= 2
        low = next
        lowHead = head
        side = -1
      }
    }
    return true
  }

  /** Moves along the tangent of the last answer; how far (L/min), 0 where there is none. */
  #predict(): number {
    this.#balance()
    if (!this.#factorised) return 0
    this.#linearise()
    this.#solveStep()
    this.#take(1)
    const { asked } = this.#heads
    let furthest = 0
    for (let chain = 0; chain < this.#flow.length; chain += 1) {
      furthest = Math.max(furthest, Math.abs((this.#flow[chain] as number) - (asked[chain] as number)))
    }
    return furthest
  }

  /** Flow of the tree's chains from that of the others, so that the mass of water is kept to the last digit. */
  #balance(): void {
    const { from, to, knots } = this.#chains
    const { rest, chain: tree, child } = this.#tree
    const { within } = this.#heads
    const need = this.#need
    for (let knot = 0; knot < knots.length; knot += 1) need[knot] = this.#drawn[knots[knot] as number] as number
    for (const chain of rest) {
      const flow = this.#flow[chain] as number
      const [a, b] = [from[chain] as number, to[chain] as number]
      need[a] = (need[a] as number) + flow
      need[b] = (need[b] as number) - flow - (within[chain] as number)
    }
    for (let at = tree.length - 1; at >= 0; at -= 1) {
      const chain = tree[at] as number
      const a = from[chain] as number
      const b = to[chain] as number
      const inside = within[chain] as number
      if (b === child[at]) {
        const flow = (need[b] as number) - inside
        this.#flow[chain] = flow
        need[a] = (need[a] as number) + flow
      } else {
        const flow = -(need[a] as number)
        this.#flow[chain] = flow
        need[b] = (need[b] as number) - flow - inside
      }
    }
  }

  /** Heads at the present flows along the tangent of the last answer. */
  #linearise(): void {
    const { asked, head } = this.#heads
    for (let chain = 0; chain < this.#flow.length; chain += 1) {
      const moved = (this.#flow[chain] as number) - (asked[chain] as number)
      head[chain] = (head[chain] as number) + (this.#metric[chain] as number) * moved
    }
  }

  #factorise(): void {
    const { slope } = this.#heads
    for (let chain = 0; chain < slope.length; chain += 1) {
      this.#metric[chain] = slope[chain] as number
      this.#conductance[chain] = 1 / (slope[chain] as number)
    }
    this.#net.factorise(this.#conductance)
    this.#factorised = true
  }

  /** The change of flow that makes up for the heads, were they to follow the slopes in the factors. */
  #solveStep(): void {
    const { from, to } = this.#chains
    const { head } = this.#heads
    const inflow = this.#inflow.fill(0)
    for (let chain = 0; chain < from.length; chain += 1) {
      const push = (head[chain] as number) * (this.#conductance[chain] as number)
      this.#headBefore[chain] = head[chain] as number
      const [a, b] = [from[chain] as number, to[chain] as number]
      inflow[a] = (inflow[a] as number) + push
      inflow[b] = (inflow[b] as number) - push
    }
    this.#net.solve(inflow, this.#knotHead)
    const level = this.#knotHead
    for (let chain = 0; chain < from.length; chain += 1) {
      const drop = (level[from[chain] as number] as number) - (level[to[chain] as number] as number)
      this.#step[chain] = (drop - (head[chain] as number)) * (this.#conductance[chain] as number)
    }
  }

  #take(part: number): void {
    for (const chain of this.#tree.rest) {
      this.#flow[chain] = (this.#flow[chain] as number) + part * (this.#step[chain] as number)
    }
    this.#balance()
  }

  /** What drove the last step, head times flow, and what the heads have gained against it since: beyond that it went too far. */
  #driving(): number {
    let sum = 0
    for (let chain = 0; chain < this.#step.length; chain += 1) {
      const step = this.#step[chain] as number
      sum += step * step * (this.#metric[chain] as number)
    }
    return sum
  }

  #gained(): number {
    const { head } = this.#heads
    let sum = 0
    for (let chain = 0; chain < this.#step.length; chain += 1) {
      sum += ((head[chain] as number) - (this.#headBefore[chain] as number)) * (this.#step[chain] as number)
    }
    return sum
  }

  #largest(of: Float64Array): number {
    let largest = 0
    for (let at = 0; at < of.length; at += 1) {
      const size = Math.abs(of[at] as number)
      if (size > largest) largest = size
    }
    return largest
  }

  /**
   * Rounds the flows; those that may be errors are set to nothing, lest water seem to go round by itself. What seeps through check
   * valves is an aid of the method: it is set to nothing too.
   */
  #finish(allowed: number): void {
    for (const chain of this.#tree.rest) {
      const flow = this.#flow[chain] as number
      this.#flow[chain] = this.#heads.stopped(chain, Math.abs(flow) <= allowed ? 0 : stepped(flow))
    }
    this.#balance()
  }

  #write(flows: Float64Array): void {
    const { from, start, pipe, sign } = this.#chains
    const { offset } = this.#heads
    for (let chain = 0; chain < from.length; chain += 1) {
      const flow = this.#flow[chain] as number
      const last = start[chain + 1] as number
      for (let slot = start[chain] as number; slot < last; slot += 1) {
        const here = flow + (offset[slot] as number)
        flows[pipe[slot] as number] = sign[slot] === 1 ? here : 0 - here
      }
    }
  }
}
