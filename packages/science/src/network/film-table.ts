/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
/** Differences from 1/16 K upward, in octaves. */
const PER_K = 16
const OCTAVES = 12
const HALVES = 2

/**
 * How the loss of a pipe goes with its difference from the air, (|θ|/θ₀)^n, ready to be asked many times.
 *
 * A parabola through the ends and the middle of each octave: to 2 parts in 10,000 for n up to 0.3. Below 1/16 K as at 1/16 K.
 */
export class FilmTable {
  /** Rows of a law: the ends and middles of the octaves. */
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
      for (let half = 0; half <= OCTAVES * HALVES; half++) values.push((differenceK(half) / lossAtK[pipe]!) ** power)
      return row
    })
    this.#values = Float64Array.from(values)
  }

  /** The factor on a pipe's loss at a difference (K, at least 0). */
  at(pipe: number, apartK: number): number {
    const values = this.#values
    const row = this.#row[pipe]!
    const scaled = apartK * PER_K
    if (scaled < 1) return values[row]!
    const octave = 31 - Math.clz32(scaled | 0)
    if (octave >= OCTAVES) return values[row + OCTAVES * HALVES]!
    const part = scaled / (1 << octave) - 1
    const at = row + octave * HALVES
    const low = values[at]!
    const middle = values[at + 1]!
    const high = values[at + 2]!
    return low + part * (4 * middle - 3 * low - high + part * 2 * (low + high - 2 * middle))
  }
}

function differenceK(half: number): number {
  const octave = Math.floor(half / HALVES)
  return ((1 + (half % HALVES) / HALVES) * 2 ** octave) / PER_K
}
