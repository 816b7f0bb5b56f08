/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
/** Places told by the bits of one word. */
const BITS = 32
const SHIFT = 5
const LAST_BIT = BITS - 1

/** Pipes in an order, and which of them run: most rest in any one step, and those are passed over a word of bits at a time. */
export class RunningList {
  readonly pipes: Int32Array
  readonly #words: Int32Array

  constructor(length: number) {
    this.pipes = new Int32Array(length)
    this.#words = new Int32Array(Math.ceil(length / BITS))
  }

  /** Notes whether water runs in the pipe at a place. */
  set(place: number, runs: boolean): void {
    const bit = 1 << (place & LAST_BIT)
    if (runs) this.#words[place >> SHIFT]! |= bit
    else this.#words[place >> SHIFT]! &= ~bit
  }

  /** The first place from one on where water runs; none is left from the number of pipes on. */
  nextRunning(from: number): number {
    const words = this.#words
    let word = from >> SHIFT
    if (word >= words.length) return this.pipes.length
    let bits = words[word]! & (-1 << (from & LAST_BIT))
    while (bits === 0) {
      if (++word === words.length) return this.pipes.length
      bits = words[word]!
    }
    return (word << SHIFT) + LAST_BIT - Math.clz32(bits & -bits)
  }
}
