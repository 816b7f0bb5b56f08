import type { Chains } from './chains.ts'
import { Conductances } from './conductances.ts'
import { stepped } from './flow-step.ts'
import type { FrictionTable } from './friction-table.ts'
import { knotTree, type KnotTree } from './knot-tree.ts'

/** What the pipes of the network are to the hydraulics, by pipe. */
export interface PipeLosses {
  id: readonly string[]
  friction: FrictionTable
  kind: Int32Array
  lengthM: Float64Array
  fittingLoss: Float64Array
  /** 0 where there is no pump. */
  shutOffHeadM: Float64Array
  headDropMPerLPerMin2: Float64Array
  /** 1 where a check valve stops flow from `to` to `from`. */
  oneWay: Uint8Array
}

/** Flows are found to this at best (L/min), a few drops a day. */
const LEAST_ERROR_L_PER_MIN = 1e-7
/** How often valves may open and shut before an answer between the two is taken. */
const MOST_TURNED = 20
/** Head (m) that a shut check valve holds for each L/min that would pass; what passes is set to nothing in the end. */
const SHUT_M_PER_L_PER_MIN = 1e8
/** The slope of a chain that resists nothing, m per L/min. */
const LEAST_SLOPE = 1e-9
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

const PLAIN = 0
const PUMP = 1
const ONE_WAY_ALONG = 2
const ONE_WAY_AGAINST = 4

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
  readonly #tree: KnotTree
  readonly #net: Conductances
  readonly #drawn: Float64Array
  readonly #pumped: boolean
  readonly #valved: boolean
  readonly #keeps: boolean
  /** By slot: what was drawn within the chain before it (negative), and the pipe's numbers. */
  readonly #offset: Float64Array
  readonly #kind: Int32Array
  readonly #length: Float64Array
  readonly #fitting: Float64Array
  readonly #special: Uint8Array
  /** Slots of one kind without a draw between them are one run; a chain's runs begin where its slots do. */
  readonly #runEnd: Int32Array
  readonly #runSlot: Int32Array
  readonly #runLength: Float64Array
  readonly #runFitting: Float64Array
  /** By slot: 1 where a check valve was last seen shut. */
  readonly #shut: Uint8Array
  /** By chain: flow into it, and what is drawn within (negative). */
  readonly #flow: Float64Array
  readonly #within: Float64Array
  /** By chain: where it was last worked out, with what head and slope; the slope and its inverse in the factors. */
  readonly #asked: Float64Array
  readonly #head: Float64Array
  readonly #headBefore: Float64Array
  readonly #slope: Float64Array
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
    const by = (length: number) => new Float64Array(length)
    this.#offset = by(slots)
    this.#kind = Int32Array.from(chains.pipe, (pipe) => losses.kind[pipe] as number)
    this.#length = Float64Array.from(chains.pipe, (pipe) => losses.lengthM[pipe] as number)
    this.#fitting = Float64Array.from(chains.pipe, (pipe) => losses.fittingLoss[pipe] as number)
    this.#special = Uint8Array.from(chains.pipe, (_, slot) => specialOf({ chains, losses, slot }))
    this.#shut = new Uint8Array(this.#special.length)
    this.#pumped = this.#special.some((each) => (each & PUMP) !== 0)
    this.#valved = this.#special.some((each) => each >= ONE_WAY_ALONG)
    this.#flow = by(count)
    this.#within = by(count)
    this.#asked = by(count)
    this.#head = by(count)
    this.#headBefore = by(count)
    this.#slope = by(count)
    this.#metric = by(count)
    this.#conductance = by(count)
    this.#step = by(count)
    this.#inflow = by(knots)
    this.#knotHead = by(knots)
    this.#need = by(knots)
    this.#runEnd = new Int32Array(count)
    this.#runSlot = new Int32Array(slots)
    this.#runLength = by(slots)
    this.#runFitting = by(slots)
    for (let chain = 0; chain < count; chain += 1) this.#join(chain)
    this.#evaluateAll()
    this.#tree = knotTree({ chains, weight: this.#slope, last: this.#shutting() })
    this.#net = new Conductances({ places: knots, from: chains.from, to: chains.to })
    this.#keeps = this.#net.work > COSTLY_FACTORS * slots
  }

  /** Chains with a check valve: best kept out of the tree, so that they can be set to nothing. */
  #shutting(): Uint8Array {
    const { from, start } = this.#chains
    return Uint8Array.from(from, (_, chain) =>
      this.#special.subarray(start[chain], start[chain + 1]).some((each) => each >= ONE_WAY_ALONG) ? 1 : 0,
    )
  }

  /** Finds the flows and writes them by pipe; `share` is the error allowed, as a share of the block's largest flow. */
  settle(flows: Float64Array, share: number): void {
    const still = this.#drain()
    if (still && !this.#pumped) this.#flow.fill(0)
    else this.#solve(share)
    this.#write(flows)
  }

  /** Takes up what is drawn within the chains. True where nothing is drawn in the whole block. */
  #drain(): boolean {
    const { from, start, inner, knots } = this.#chains
    let still = true
    for (let chain = 0; chain < from.length; chain += 1) {
      let sum = 0
      let changed = false
      const last = (start[chain + 1] as number) - 1
      for (let slot = start[chain] as number; slot <= last; slot += 1) {
        if (this.#offset[slot] !== sum) {
          this.#offset[slot] = sum
          changed = true
        }
        if (slot === last) break
        const drawn = this.#drawn[inner[slot] as number] as number
        if (drawn !== 0) {
          sum -= drawn
          still = false
        }
      }
      this.#within[chain] = sum
      if (!changed) continue
      this.#join(chain)
      this.#evaluate(chain, chain + 1, this.#asked)
    }
    for (let knot = 1; knot < knots.length; knot += 1) if (this.#drawn[knots[knot] as number] !== 0) still = false
    return still
  }

  /** Draws a chain's slots together into runs; a pipe with a pump or a check valve is one by itself. */
  #join(chain: number): void {
    const last = this.#chains.start[chain + 1] as number
    let run = (this.#chains.start[chain] as number) - 1
    let before = -1
    for (let slot = run + 1; slot < last; slot += 1) {
      const joins =
        before >= 0 &&
        this.#kind[slot] === this.#kind[before] &&
        this.#offset[slot] === this.#offset[before] &&
        this.#special[slot] === PLAIN &&
        this.#special[before] === PLAIN
      if (!joins) {
        run += 1
        this.#runSlot[run] = slot
        this.#runLength[run] = 0
        this.#runFitting[run] = 0
      }
      this.#runLength[run] = (this.#runLength[run] as number) + (this.#length[slot] as number)
      this.#runFitting[run] = (this.#runFitting[run] as number) + (this.#fitting[slot] as number)
      before = slot
    }
    this.#runEnd[chain] = run + 1
  }

  #solve(share: number): void {
    let before = this.#predict()
    let slope = 0
    let kept = false
    let turns = 0
    if (this.#valved) this.#turnValves()
    for (let step = 0; step < MOST_STEPS; step += 1) {
      this.#evaluateAll()
      if (slope < 0 && this.#goBack(slope)) {
        kept = false
        before = 0
        // on the way back a valve may have shut, from where the step that opens it is tiny
        if (this.#valved) this.#turnValves()
      }
      if (!kept) this.#factorise()
      this.#solveStep()
      slope = -this.#driving()
      const size = this.#largest(this.#step)
      const ratio = before > 0 ? size / before : 1
      slope *= this.#stretch(ratio)
      this.#take(1)
      // with fresh factors errors go with the square of the step, where no valve opens or shuts
      const left = kept || this.#valved ? size : size * Math.min(1, Math.max(LEAST_LEFT, SAFETY * ratio * ratio))
      const allowed = Math.max(share * this.#largest(this.#flow), LEAST_ERROR_L_PER_MIN)
      // a shut valve is so steep that the step which opens it is tiny: what follows is not
      const turned = this.#valved && this.#turnValves() && turns < MOST_TURNED
      if (turned) turns += 1
      if (left <= allowed && !turned) return this.#finish(allowed)
      kept = this.#keeps && ratio < QUICK
      before = size
    }
    throw new RangeError(
      `Cannot find the flow of pipe "${this.#losses.id[this.#chains.pipe[0] as number]}" because its rings do not come to rest: got ${this.#largest(this.#step)} L/min still changing after ${MOST_STEPS} steps`,
    )
  }

  /** Notes which check valves are shut; true where that is otherwise than before. */
  #turnValves(): boolean {
    const { start } = this.#chains
    let turned = false
    for (let chain = 0; chain < this.#flow.length; chain += 1) {
      for (let slot = start[chain] as number; slot < (start[chain + 1] as number); slot += 1) {
        const special = this.#special[slot] as number
        if (special < ONE_WAY_ALONG) continue
        const shut = this.#isShut(special, (this.#flow[chain] as number) + (this.#offset[slot] as number)) ? 1 : 0
        if (shut !== this.#shut[slot]) turned = true
        this.#shut[slot] = shut
      }
    }
    return turned
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
      this.#evaluateAll()
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
    let furthest = 0
    for (let chain = 0; chain < this.#flow.length; chain += 1) {
      furthest = Math.max(furthest, Math.abs((this.#flow[chain] as number) - (this.#asked[chain] as number)))
    }
    return furthest
  }

  /** Flow of the tree's chains from that of the others, so that the mass of water is kept to the last digit. */
  #balance(): void {
    const { from, to, knots } = this.#chains
    const { rest, chain: tree, child } = this.#tree
    const need = this.#need
    for (let knot = 0; knot < knots.length; knot += 1) need[knot] = this.#drawn[knots[knot] as number] as number
    for (const chain of rest) {
      const flow = this.#flow[chain] as number
      const [a, b] = [from[chain] as number, to[chain] as number]
      need[a] = (need[a] as number) + flow
      need[b] = (need[b] as number) - flow - (this.#within[chain] as number)
    }
    for (let at = tree.length - 1; at >= 0; at -= 1) {
      const chain = tree[at] as number
      const a = from[chain] as number
      const b = to[chain] as number
      const within = this.#within[chain] as number
      if (b === child[at]) {
        const flow = (need[b] as number) - within
        this.#flow[chain] = flow
        need[a] = (need[a] as number) + flow
      } else {
        const flow = -(need[a] as number)
        this.#flow[chain] = flow
        need[b] = (need[b] as number) - flow - within
      }
    }
  }

  /** Heads at the present flows along the tangent of the last answer. */
  #linearise(): void {
    for (let chain = 0; chain < this.#flow.length; chain += 1) {
      const moved = (this.#flow[chain] as number) - (this.#asked[chain] as number)
      this.#head[chain] = (this.#head[chain] as number) + (this.#metric[chain] as number) * moved
    }
  }

  #evaluateAll(): void {
    this.#evaluate(0, this.#flow.length, this.#flow)
  }

  /** Heads and slopes of chains for the given flows (by chain). */
  #evaluate(first: number, end: number, flows: Float64Array): void {
    const friction = this.#losses.friction
    const start = this.#chains.start
    const offset = this.#offset
    const kinds = this.#kind
    const specials = this.#special
    for (let chain = first; chain < end; chain += 1) {
      const flow = flows[chain] as number
      const last = this.#runEnd[chain] as number
      let head = 0
      let slope = 0
      for (let run = start[chain] as number; run < last; run += 1) {
        const slot = this.#runSlot[run] as number
        const here = flow + (offset[slot] as number)
        friction.at(kinds[slot] as number, here)
        const length = this.#runLength[run] as number
        const fitting = this.#runFitting[run] as number
        head += length * friction.perM + fitting * friction.fitting
        slope += length * friction.perMSlope + fitting * friction.fittingSlope
        if (specials[slot] !== PLAIN) {
          head += this.#specialHead(slot, here)
          slope += this.#specialSlope(slot, here)
        }
      }
      this.#asked[chain] = flow
      this.#head[chain] = head
      this.#slope[chain] = slope < LEAST_SLOPE ? LEAST_SLOPE : slope
    }
  }

  #specialHead(slot: number, flow: number): number {
    const special = this.#special[slot] as number
    const pipe = this.#chains.pipe[slot] as number
    let head = 0
    if ((special & PUMP) !== 0) {
      const drop = this.#losses.headDropMPerLPerMin2[pipe] as number
      head +=
        drop * flow * Math.abs(flow) - (this.#chains.sign[slot] as number) * (this.#losses.shutOffHeadM[pipe] as number)
    }
    return this.#isShut(special, flow) ? head + SHUT_M_PER_L_PER_MIN * flow : head
  }

  #specialSlope(slot: number, flow: number): number {
    const special = this.#special[slot] as number
    const pipe = this.#chains.pipe[slot] as number
    const pump = (special & PUMP) !== 0 ? 2 * (this.#losses.headDropMPerLPerMin2[pipe] as number) * Math.abs(flow) : 0
    return this.#isShut(special, flow) ? pump + SHUT_M_PER_L_PER_MIN : pump
  }

  #isShut(special: number, flow: number): boolean {
    return ((special & ONE_WAY_ALONG) !== 0 && flow < 0) || ((special & ONE_WAY_AGAINST) !== 0 && flow > 0)
  }

  #factorise(): void {
    for (let chain = 0; chain < this.#slope.length; chain += 1) {
      const slope = this.#slope[chain] as number
      this.#metric[chain] = slope
      this.#conductance[chain] = 1 / slope
    }
    this.#net.factorise(this.#conductance)
    this.#factorised = true
  }

  /** The change of flow that makes up for the heads, were they to follow the slopes in the factors. */
  #solveStep(): void {
    const { from, to } = this.#chains
    const inflow = this.#inflow.fill(0)
    for (let chain = 0; chain < from.length; chain += 1) {
      const push = (this.#head[chain] as number) * (this.#conductance[chain] as number)
      this.#headBefore[chain] = this.#head[chain] as number
      const [a, b] = [from[chain] as number, to[chain] as number]
      inflow[a] = (inflow[a] as number) + push
      inflow[b] = (inflow[b] as number) - push
    }
    this.#net.solve(inflow, this.#knotHead)
    const level = this.#knotHead
    for (let chain = 0; chain < from.length; chain += 1) {
      const drop = (level[from[chain] as number] as number) - (level[to[chain] as number] as number)
      this.#step[chain] = (drop - (this.#head[chain] as number)) * (this.#conductance[chain] as number)
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
    let sum = 0
    for (let chain = 0; chain < this.#step.length; chain += 1) {
      sum += ((this.#head[chain] as number) - (this.#headBefore[chain] as number)) * (this.#step[chain] as number)
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
    const { start } = this.#chains
    for (const chain of this.#tree.rest) {
      const flow = this.#flow[chain] as number
      this.#flow[chain] = Math.abs(flow) <= allowed ? 0 : stepped(flow)
      for (let slot = start[chain] as number; slot < (start[chain + 1] as number); slot += 1) {
        if ((this.#special[slot] as number) < ONE_WAY_ALONG) continue
        const here = (this.#flow[chain] as number) + (this.#offset[slot] as number)
        if (this.#isShut(this.#special[slot] as number, here)) this.#flow[chain] = -(this.#offset[slot] as number)
      }
    }
    this.#balance()
  }

  #write(flows: Float64Array): void {
    const { from, start, pipe, sign } = this.#chains
    for (let chain = 0; chain < from.length; chain += 1) {
      const flow = this.#flow[chain] as number
      const last = start[chain + 1] as number
      for (let slot = start[chain] as number; slot < last; slot += 1) {
        const here = flow + (this.#offset[slot] as number)
        flows[pipe[slot] as number] = sign[slot] === 1 ? here : 0 - here
      }
    }
  }
}

function specialOf({ chains, losses, slot }: { chains: Chains; losses: PipeLosses; slot: number }): number {
  const pipe = chains.pipe[slot] as number
  const pump = (losses.shutOffHeadM[pipe] as number) > 0 || (losses.headDropMPerLPerMin2[pipe] as number) > 0 ? PUMP : 0
  const along = chains.sign[slot] === 1 ? ONE_WAY_ALONG : ONE_WAY_AGAINST
  return losses.oneWay[pipe] === 1 ? pump | along : pump
}
