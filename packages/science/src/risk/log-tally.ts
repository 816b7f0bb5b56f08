/** Width of a cell of natural logarithm: a quantile is known to this share of itself, 0.05 %, and to far less where many fall. */
const CELL = 5e-4
/** Everything a dose or a risk can be, from 1e-69 to 1e34. */
const LOWEST = -160
const HIGHEST = 80
const CELLS = Math.round((HIGHEST - LOWEST) / CELL)

/**
 * Counts positive values by their logarithm in 480,000 cells, so that quantiles of any number of values are had from 2 MB.
 * Values below 1e-69 count as 0.
 *
 * @source none: it only counts
 * @example
 * new LogTally().quantile(0.5) // => 0
 */
export class LogTally {
  readonly #cells = new Uint32Array(CELLS)
  #zeros = 0
  /** No cell before it holds any: a walk starts there. */
  #first = CELLS
  #count = 0

  /** Takes in a value by its natural logarithm, −Infinity for 0. */
  add(logarithm: number): void {
    this.#count += 1
    const cell = Math.floor((logarithm - LOWEST) / CELL)
    if (cell < 0) this.#zeros += 1
    else {
      const at = Math.min(cell, CELLS - 1)
      if (at < this.#first) this.#first = at
      this.#cells[at] = (this.#cells[at] ?? 0) + 1
    }
  }

  get count(): number {
    return this.#count
  }

  /** The value this share of those taken in lies at or below; 0 of none. */
  quantile(share: number): number {
    const [value = 0] = this.quantiles([share])
    return value
  }

  /** The same for several shares, rising, in one walk. */
  quantiles(shares: readonly number[]): number[] {
    let below = this.#zeros
    let cell = this.#first
    return shares.map((share) => {
      const rank = share * this.#count
      if (rank <= this.#zeros) return 0
      while (cell < CELLS && below + (this.#cells[cell] ?? 0) < rank) {
        below += this.#cells[cell] ?? 0
        cell += 1
      }
      const inside = (rank - below) / (this.#cells[cell] ?? 1)
      return Math.exp(LOWEST + (cell + inside) * CELL)
    })
  }
}
