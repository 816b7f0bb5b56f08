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

/** Room at first; a row that needs more is copied. Most pipes do with little, and little memory is walked through. */
const FIRST_ROOM = 4
const START = 0
const MASK = 1
const HEAD = 2
/** One is spare, so that a row never lies across two lines of memory. */
const COLUMNS = 4

/**
 * The water of every pipe as parcels in a row, from the `to` end (place 0) to the `from` end. One block of memory for all pipes; a
 * pipe that needs more room moves to the block's end.
 *
 * A parcel holds its volume (L), the minutes at which its two faces came in, the pipe's clocks at that moment (minutes stood; exposure
 * to the wall) and its water as it was then: what happened to it since is worked out when it leaves.
 */
export class ParcelStore {
  data: Float64Array
  /** Parcels of each pipe. */
  readonly count: Int32Array
  /** By pipe, side by side: where its parcels begin, the length of the row less 1, the place of the first. */
  readonly #rows: Int32Array
  #used: number

  constructor(pipes: number) {
    this.count = new Int32Array(pipes)
    this.#rows = new Int32Array(pipes * COLUMNS)
    for (let pipe = 0; pipe < pipes; pipe++) {
      this.#rows[pipe * COLUMNS + START] = pipe * FIRST_ROOM
      this.#rows[pipe * COLUMNS + MASK] = FIRST_ROOM - 1
    }
    this.#used = pipes * FIRST_ROOM
    this.data = new Float64Array(this.#used * STRIDE)
  }

  /** Where the fields of a parcel begin in `data`; `place` 0 is at the `to` end. */
  at(pipe: number, place: number): number {
    const rows = this.#rows
    const row = pipe * COLUMNS
    return (rows[row + START]! + ((rows[row + HEAD]! + place) & rows[row + MASK]!)) * STRIDE
  }

  /** Room for one more parcel at the `from` end. */
  addFrom(pipe: number): number {
    const row = pipe * COLUMNS
    if (this.count[pipe]! > this.#rows[row + MASK]!) this.#widen(pipe)
    return this.at(pipe, this.count[pipe]!++)
  }

  /** Room for one more parcel at the `to` end. */
  addTo(pipe: number): number {
    const row = pipe * COLUMNS
    if (this.count[pipe]! > this.#rows[row + MASK]!) this.#widen(pipe)
    this.count[pipe]!++
    this.#rows[row + HEAD] = (this.#rows[row + HEAD]! - 1) & this.#rows[row + MASK]!
    return this.at(pipe, 0)
  }

  clear(pipe: number): void {
    this.count[pipe] = 0
  }

  dropTo(pipe: number): void {
    const row = pipe * COLUMNS
    this.#rows[row + HEAD] = (this.#rows[row + HEAD]! + 1) & this.#rows[row + MASK]!
    this.count[pipe]!--
  }

  dropFrom(pipe: number): void {
    this.count[pipe]!--
  }

  /** Takes out the parcel at the `to` end, or at the `from` end. */
  drop(pipe: number, atTo: boolean): void {
    if (atTo) this.dropTo(pipe)
    else this.dropFrom(pipe)
  }

  /** Puts the only parcel of a pipe where its row begins: what is used again and again is near at hand. */
  settleOne(pipe: number): void {
    const rows = this.#rows
    const row = pipe * COLUMNS
    const head = rows[row + HEAD]!
    if (head === 0) return
    const { data } = this
    const to = rows[row + START]! * STRIDE
    const from = to + head * STRIDE
    for (let field = 0; field < STRIDE; field++) data[to + field] = data[from + field]!
    rows[row + HEAD] = 0
  }

  #widen(pipe: number): void {
    const row = pipe * COLUMNS
    const room = this.#rows[row + MASK]! + 1
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
    this.#rows[row + START] = this.#used
    this.#rows[row + HEAD] = 0
    this.#rows[row + MASK] = wider - 1
    this.#used += wider
  }
}
