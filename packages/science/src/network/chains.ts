/** A block of pipes that lie on rings. */
export interface RingBlock {
  /** Pipes of the block, with the places at their ends. */
  pipes: Int32Array
  from: Int32Array
  to: Int32Array
  /** The place at which the block hangs. */
  top: number
}

/**
 * A block as chains of pipes between knots, the places where three or more of its pipes meet; knot 0 is the top.
 * Pipes are in slots, chain after chain: chain c has slots `start[c]` to before `start[c + 1]`.
 */
export interface Chains {
  knots: Int32Array
  from: Int32Array
  to: Int32Array
  start: Int32Array
  /** The pipe of each slot, and 1 where it points along its chain, −1 where against it. */
  pipe: Int32Array
  sign: Int8Array
  /** The place after each slot, inside its chain; −1 at the chain's end. */
  inner: Int32Array
}

/**
 * Draws a block together into chains, in which water can only go on.
 * Wanted because a ring of a hundred pipes has one unknown, not a hundred.
 *
 * @param block pipes on rings
 * @source none: it only sorts a list
 */
export function chainsOf(block: RingBlock): Chains {
  return new Walk(block).run()
}

class Walk {
  readonly #block: RingBlock
  readonly #near = new Map<number, number[]>()
  readonly #knotAt = new Map<number, number>()
  readonly #used: Uint8Array
  readonly #from: number[] = []
  readonly #to: number[] = []
  readonly #start: number[] = [0]
  readonly #pipe: number[] = []
  readonly #sign: number[] = []
  readonly #inner: number[] = []

  constructor(block: RingBlock) {
    this.#block = block
    this.#used = new Uint8Array(block.pipes.length)
    for (let each = 0; each < block.pipes.length; each += 1) {
      this.#list(block.from[each] as number, each)
      if (block.from[each] !== block.to[each]) this.#list(block.to[each] as number, each)
    }
    this.#knotAt.set(block.top, 0)
    for (const [place, near] of this.#near) {
      if (near.length > 2 && place !== block.top) this.#knotAt.set(place, this.#knotAt.size)
    }
  }

  #list(place: number, each: number): void {
    const near = this.#near.get(place)
    if (near === undefined) this.#near.set(place, [each])
    else near.push(each)
  }

  run(): Chains {
    for (const [place, knot] of this.#knotAt) {
      for (const each of this.#near.get(place) ?? []) if (this.#used[each] === 0) this.#follow(place, { knot, each })
    }
    return {
      knots: Int32Array.from(this.#knotAt.keys()),
      from: Int32Array.from(this.#from),
      to: Int32Array.from(this.#to),
      start: Int32Array.from(this.#start),
      pipe: Int32Array.from(this.#pipe),
      sign: Int8Array.from(this.#sign),
      inner: Int32Array.from(this.#inner),
    }
  }

  #follow(place: number, { knot, each }: { knot: number; each: number }): void {
    this.#from.push(knot)
    let here = place
    let next: number | undefined = each
    while (next !== undefined) {
      this.#used[next] = 1
      const along: boolean = this.#block.from[next] === here
      here = (along ? this.#block.to[next] : this.#block.from[next]) as number
      this.#pipe.push(this.#block.pipes[next] as number)
      this.#sign.push(along ? 1 : -1)
      const end = this.#knotAt.get(here)
      this.#inner.push(end === undefined ? here : -1)
      if (end !== undefined) this.#to.push(end)
      next = end === undefined ? this.#near.get(here)?.find((other) => this.#used[other] === 0) : undefined
    }
    this.#start.push(this.#pipe.length)
  }
}
