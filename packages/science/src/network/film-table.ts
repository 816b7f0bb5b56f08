/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
/** Differences from 1/16 K upward, in octaves. */
const PER_K = 16
const OCTAVES = 12
const QUARTERS = 4

/**
 * How the loss of a pipe goes with its difference from the air, (|θ|/θ₀)^n, ready to be asked many times.
 *
 * A parabola through the ends and the middle of each half of an octave: to 3 parts in 10,000 for n up to 0.3. Below 1/16 K as at 1/16 K.
 */
export class FilmTable {
  /** Rows of a law: the quarters of the octaves. */
  readonly #values: Float64Array
  /** Where the row of each pipe's law begins. */
  readonly #row: Int32Array

  constructor({ lossPower, lossAtK }: { lossPower: Float64Array; lossAtK: Float64Array }) {
    const rows = new Map<string, number>()
    const values: number[] = []
    this.#row = Int32Array.from(lossPower, (power, pipe) => {
      const key = `${power} ${lossAtK[pipe]!}`
      const known = rows.get(key)
      if (known !== undefined) return known
      const row = values.length
      rows.set(key, row)
      for (let quarter = 0; quarter <= OCTAVES * QUARTERS; quarter++)
        values.push((differenceK(quarter) / lossAtK[pipe]!) ** power)
      return row
    })
    this.#values = Float64Array.from(values)
  }

  /** The number of a pipe's law. */
  lawOf(pipe: number): number {
    return this.#row[pipe]!
  }

  /** The factor on the loss at a difference (K, at least 0), by a law. */
  at(law: number, apartK: number): number {
    const values = this.#values
    const row = law | 0
    const scaled = apartK * PER_K
    if (scaled < 1) return values[row]!
    const octave = 31 - Math.clz32(scaled | 0)
    if (octave >= OCTAVES) return values[row + OCTAVES * QUARTERS]!
    const halves = 2 * (scaled / (1 << octave) - 1)
    const half = halves | 0
    const part = halves - half
    const at = row + octave * QUARTERS + 2 * half
    const low = values[at]!
    const middle = values[at + 1]!
    const high = values[at + 2]!
    return low + part * (4 * middle - 3 * low - high + part * 2 * (low + high - 2 * middle))
  }
}

function differenceK(quarter: number): number {
  const octave = Math.floor(quarter / QUARTERS)
  return ((1 + (quarter % QUARTERS) / QUARTERS) * 2 ** octave) / PER_K
}
