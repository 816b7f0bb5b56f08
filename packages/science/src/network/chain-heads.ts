import type { Chains } from './chains.ts'
import type { FrictionTable } from './friction-table.ts'

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

/** Head (m) that a shut check valve holds for each L/min that would pass; what passes is set to nothing in the end. */
const SHUT_M_PER_L_PER_MIN = 1e8
/** The slope of a chain that resists nothing, m per L/min. */
const LEAST_SLOPE = 1e-9

const PLAIN = 0
const PUMP = 1
const ONE_WAY_ALONG = 2
const ONE_WAY_AGAINST = 4

/** Head lost along the chains of one block of rings, and its slope, at what flows into them and what is drawn within. */
export class ChainHeads {
  readonly #chains: Chains
  readonly #losses: PipeLosses
  readonly #drawn: Float64Array
  /** Whether there is a pump, and whether a check valve. */
  readonly pumped: boolean
  readonly valved: boolean
  /** By slot: what was drawn within the chain before it (negative), and the pipe's numbers. */
  readonly offset: Float64Array
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
  /** By chain: what is drawn within (negative); the flow at which it was last worked out, with what head (m) and slope (m per L/min). */
  readonly within: Float64Array
  readonly asked: Float64Array
  readonly head: Float64Array
  readonly slope: Float64Array

  /** `drawn`: what leaves the block at each place of the network, L/min, kept by the caller. */
  constructor({ chains, losses, drawn }: { chains: Chains; losses: PipeLosses; drawn: Float64Array }) {
    const [slots, count] = [chains.pipe.length, chains.from.length]
    this.#chains = chains
    this.#losses = losses
    this.#drawn = drawn
    const by = (length: number) => new Float64Array(length)
    this.offset = by(slots)
    this.#kind = Int32Array.from(chains.pipe, (pipe) => losses.kind[pipe] as number)
    this.#length = Float64Array.from(chains.pipe, (pipe) => losses.lengthM[pipe] as number)
    this.#fitting = Float64Array.from(chains.pipe, (pipe) => losses.fittingLoss[pipe] as number)
    this.#special = Uint8Array.from(chains.pipe, (_, slot) => specialOf({ chains, losses, slot }))
    this.#shut = new Uint8Array(slots)
    this.pumped = this.#special.some((each) => (each & PUMP) !== 0)
    this.valved = this.#special.some((each) => each >= ONE_WAY_ALONG)
    this.within = by(count)
    this.asked = by(count)
    this.head = by(count)
    this.slope = by(count)
    this.#runEnd = new Int32Array(count)
    this.#runSlot = new Int32Array(slots)
    this.#runLength = by(slots)
    this.#runFitting = by(slots)
    for (let chain = 0; chain < count; chain += 1) this.#join(chain)
    this.evaluate(this.asked)
  }

  /** Chains with a check valve: best kept out of the tree, so that they can be set to nothing. */
  shutting(): Uint8Array {
    const { from, start } = this.#chains
    return Uint8Array.from(from, (_, chain) =>
      this.#special.subarray(start[chain], start[chain + 1]).some((each) => each >= ONE_WAY_ALONG) ? 1 : 0,
    )
  }

  /** Takes up what is drawn within the chains. True where nothing is drawn in the whole block. */
  drain(): boolean {
    const { from, start, inner, knots } = this.#chains
    let still = true
    for (let chain = 0; chain < from.length; chain += 1) {
      let sum = 0
      let changed = false
      const last = (start[chain + 1] as number) - 1
      for (let slot = start[chain] as number; slot <= last; slot += 1) {
        if (this.offset[slot] !== sum) {
          this.offset[slot] = sum
          changed = true
        }
        if (slot === last) break
        const drawn = this.#drawn[inner[slot] as number] as number
        if (drawn !== 0) {
          sum -= drawn
          still = false
        }
      }
      this.within[chain] = sum
      if (!changed) continue
      this.#join(chain)
      this.#evaluate(chain, chain + 1, this.asked)
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
        this.offset[slot] === this.offset[before] &&
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

  /** Notes which check valves are shut; true where that is otherwise than before. */
  turnValves(flow: Float64Array): boolean {
    const { start } = this.#chains
    let turned = false
    for (let chain = 0; chain < flow.length; chain += 1) {
      for (let slot = start[chain] as number; slot < (start[chain + 1] as number); slot += 1) {
        const special = this.#special[slot] as number
        if (special < ONE_WAY_ALONG) continue
        const shut = isShut(special, (flow[chain] as number) + (this.offset[slot] as number)) ? 1 : 0
        if (shut !== this.#shut[slot]) turned = true
        this.#shut[slot] = shut
      }
    }
    return turned
  }

  /** The flow into a chain once nothing passes its check valves against their way: `flow` where none stands against it. */
  stopped(chain: number, flow: number): number {
    const { start } = this.#chains
    let left = flow
    for (let slot = start[chain] as number; slot < (start[chain + 1] as number); slot += 1) {
      const offset = this.offset[slot] as number
      if (isShut(this.#special[slot] as number, left + offset)) left = -offset
    }
    return left
  }

  /** Heads and slopes of all chains at these flows. */
  evaluate(flow: Float64Array): void {
    this.#evaluate(0, flow.length, flow)
  }

  /** Heads and slopes of chains for the given flows (by chain). */
  #evaluate(first: number, end: number, flows: Float64Array): void {
    const friction = this.#losses.friction
    const start = this.#chains.start
    const offset = this.offset
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
      this.asked[chain] = flow
      this.head[chain] = head
      this.slope[chain] = slope < LEAST_SLOPE ? LEAST_SLOPE : slope
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
    return isShut(special, flow) ? head + SHUT_M_PER_L_PER_MIN * flow : head
  }

  #specialSlope(slot: number, flow: number): number {
    const special = this.#special[slot] as number
    const pipe = this.#chains.pipe[slot] as number
    const pump = (special & PUMP) !== 0 ? 2 * (this.#losses.headDropMPerLPerMin2[pipe] as number) * Math.abs(flow) : 0
    return isShut(special, flow) ? pump + SHUT_M_PER_L_PER_MIN : pump
  }
}

function specialOf({ chains, losses, slot }: { chains: Chains; losses: PipeLosses; slot: number }): number {
  const pipe = chains.pipe[slot] as number
  const pump = (losses.shutOffHeadM[pipe] as number) > 0 || (losses.headDropMPerLPerMin2[pipe] as number) > 0 ? PUMP : 0
  const along = chains.sign[slot] === 1 ? ONE_WAY_ALONG : ONE_WAY_AGAINST
  return losses.oneWay[pipe] === 1 ? pump | along : pump
}

function isShut(special: number, flow: number): boolean {
  return ((special & ONE_WAY_ALONG) !== 0 && flow < 0) || ((special & ONE_WAY_AGAINST) !== 0 && flow > 0)
}
