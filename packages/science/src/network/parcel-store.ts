/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
/** Fields of a parcel, by offset in its row. `To` and `From` are its faces towards the ends of the pipe. */
export const VOLUME_L = 0
export const ENTRY_TO = 1
export const ENTRY_FROM = 2
export const STOOD = 3
export const WALL_TO = 4
export const WALL_FROM = 5
export const AGE = 6
export const TEMPERATURE = 7
export const RESIDUAL = 8
export const GROWTH = 9
export const STANDING = 10
/** Numbers a parcel. */
export const STRIDE = 11

const FIRST_ROOM = 8

/**
 * The water of every pipe as parcels in a row, from the `to` end (place 0) to the `from` end. One block of memory for all pipes; a
 * pipe that needs more room moves to the block's end.
 *
 * A parcel holds its volume (L), the minutes at which its two faces came in, the pipe's clocks at that moment (minutes stood; exposure
 * to the wall) and its water as it was then: what happened to it since is worked out when it leaves.
 */
export class ParcelStore {
  data: Float64Array
  readonly count: Int32Array
  readonly #start: Int32Array
  readonly #mask: Int32Array
  readonly #head: Int32Array
  #used: number

  constructor(pipes: number) {
    this.count = new Int32Array(pipes)
    this.#start = new Int32Array(pipes)
    this.#mask = new Int32Array(pipes).fill(FIRST_ROOM - 1)
    this.#head = new Int32Array(pipes)
    for (let pipe = 0; pipe < pipes; pipe++) this.#start[pipe] = pipe * FIRST_ROOM
    this.#used = pipes * FIRST_ROOM
    this.data = new Float64Array(this.#used * STRIDE)
  }

  /** Where the fields of a parcel begin in `data`; `place` 0 is at the `to` end. */
  at(pipe: number, place: number): number {
    const mask = this.#mask[pipe]!
    return (this.#start[pipe]! + ((this.#head[pipe]! + place) & mask)) * STRIDE
  }

  /** Room for one more parcel at the `from` end. */
  addFrom(pipe: number): number {
    if (this.count[pipe]! > this.#mask[pipe]!) this.#widen(pipe)
    this.count[pipe]!++
    return this.at(pipe, this.count[pipe]! - 1)
  }

  /** Room for one more parcel at the `to` end. */
  addTo(pipe: number): number {
    if (this.count[pipe]! > this.#mask[pipe]!) this.#widen(pipe)
    this.count[pipe]!++
    this.#head[pipe] = (this.#head[pipe]! - 1) & this.#mask[pipe]!
    return this.at(pipe, 0)
  }

  dropTo(pipe: number): void {
    this.#head[pipe] = (this.#head[pipe]! + 1) & this.#mask[pipe]!
    this.count[pipe]!--
  }

  dropFrom(pipe: number): void {
    this.count[pipe]!--
  }

  clear(pipe: number): void {
    this.count[pipe] = 0
  }

  #widen(pipe: number): void {
    const room = this.#mask[pipe]! + 1
    const wider = room * 2
    if ((this.#used + wider) * STRIDE > this.data.length) {
      const grown = new Float64Array(Math.max(this.data.length * 2, (this.#used + wider) * STRIDE))
      grown.set(this.data)
      this.data = grown
    }
    for (let place = 0; place < room; place++) {
      const from = this.at(pipe, place)
      this.data.copyWithin((this.#used + place) * STRIDE, from, from + STRIDE)
    }
    this.#start[pipe] = this.#used
    this.#head[pipe] = 0
    this.#mask[pipe] = wider - 1
    this.#used += wider
  }
}
