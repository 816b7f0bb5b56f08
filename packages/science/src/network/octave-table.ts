/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
/** Straight pieces in each doubling of x. */
const PIECES = 64

/**
 * A smooth law over doublings of x, ready to be asked many times: straight between 64 places of each doubling.
 *
 * What a law bends by over a doubling is divided by 8 · 64²: for powers between 0 and 1 it keeps to a part in 100,000. Outside its
 * doublings the law itself is asked.
 */
export class OctaveTable {
  readonly #law: (x: number) => number
  readonly #values: Float64Array
  /** By doubling: the places of a unit of scaled x. */
  readonly #places: Float64Array
  readonly #scale: number
  readonly #end: number

  /** @param of.least the lower end, above 0; @param of.octaves doublings from there, at most 30 */
  constructor(law: (x: number) => number, { least, octaves }: { least: number; octaves: number }) {
    this.#law = law
    this.#scale = 1 / least
    this.#end = 2 ** octaves
    this.#places = Float64Array.from({ length: octaves }, (_, octave) => PIECES / 2 ** octave)
    this.#values = Float64Array.from({ length: octaves * PIECES + 1 }, (_, at) =>
      law(least * 2 ** Math.floor(at / PIECES) * (1 + (at % PIECES) / PIECES)),
    )
  }

  at(x: number): number {
    const scaled = x * this.#scale
    if (!(scaled >= 1 && scaled < this.#end)) return this.#law(x)
    const octave = 31 - Math.clz32(scaled | 0)
    const place = scaled * this.#places[octave]! - PIECES
    const piece = place | 0
    const at = octave * PIECES + piece
    const below = this.#values[at]!
    return below + (place - piece) * (this.#values[at + 1]! - below)
  }
}
