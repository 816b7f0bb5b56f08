/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
/** Pipes in an order, and which of them run: most rest in any one step, and those are passed over four at a time. */
export class RunningList {
  readonly pipes: Int32Array
  /** By place in `pipes`: 1 where water runs. The same, four places at a time. */
  readonly running: Uint8Array
  readonly #fours: Int32Array

  constructor(length: number) {
    this.pipes = new Int32Array(length)
    this.#fours = new Int32Array(Math.ceil(length / 4))
    this.running = new Uint8Array(this.#fours.buffer)
  }

  /** The first place from one on where water runs; none is left from the number of pipes on. */
  nextRunning(from: number): number {
    const { running } = this
    let place = from
    while (place < running.length) {
      // most pipes rest
      if ((place & 3) === 0 && this.#fours[place >> 2] === 0) place += 4
      else if (running[place] === 1) return place
      else place++
    }
    return place
  }
}
