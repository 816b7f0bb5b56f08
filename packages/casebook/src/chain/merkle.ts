import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, concatBytes, hexToBytes } from '@noble/hashes/utils.js'

/** What is hashed before a leaf and before two nodes, so that no node can be passed off as a leaf: RFC 6962, section 2.1. */
const LEAF = Uint8Array.of(0x00)
const NODE = Uint8Array.of(0x01)

/** The hash of a tree without leaves: SHA-256 of nothing. */
export const EMPTY_ROOT = bytesToHex(sha256(new Uint8Array()))

/** The hash of one leaf, in lower-case hexadecimal. */
export function leafHash(data: Uint8Array): string {
  return bytesToHex(sha256(concatBytes(LEAF, data)))
}

/** The hash above two others. */
export function nodeHash(left: string, right: string): string {
  return bytesToHex(sha256(concatBytes(NODE, hexToBytes(left), hexToBytes(right))))
}

/**
 * A hash tree over a list that only grows (RFC 6962, section 2.1). Adding costs two hashes on average; root and proofs of any size up
 * to the present one cost about as many hashes as the tree is high, squared at worst: complete parts are kept, nothing is counted twice.
 */
export class MerkleTree {
  /** by height, the hashes of the parts that are complete: of 1, 2, 4, 8 … leaves, each beginning at a multiple of its size */
  readonly #complete: string[][] = [[]]

  get size(): number {
    return this.#complete[0]?.length ?? 0
  }

  /** Adds a leaf at the end; gives its hash. */
  append(data: Uint8Array): string {
    const leaf = leafHash(data)
    let hash = leaf
    for (let height = 0; ; height += 1) {
      const row = (this.#complete[height] ??= [])
      row.push(hash)
      const left = row.at(-2)
      if (row.length % 2 === 1 || left === undefined) return leaf
      hash = nodeHash(left, hash)
    }
  }

  /** The hash of the tree as it was after its first `size` leaves. */
  root(size = this.size): string {
    this.#within(size)
    return size === 0 ? EMPTY_ROOT : this.#part(0, size)
  }

  /**
   * The hashes that lead from leaf `index` (from 0) to the root of the first `size` leaves, nearest first.
   * @throws RangeError for a leaf that is not among them
   */
  inclusionProof(index: number, size = this.size): string[] {
    this.#within(size)
    if (!Number.isSafeInteger(index) || index < 0 || index >= size)
      throw new RangeError(`Cannot prove a leaf because the tree of ${size} has none there: got ${index}`)
    return this.#path(index, { start: 0, size })
  }

  /**
   * The hashes that show the first `earlier` leaves to be the beginning of the first `size`.
   * @throws RangeError where the earlier tree is the larger
   */
  consistencyProof(earlier: number, size = this.size): string[] {
    this.#within(size)
    if (!Number.isSafeInteger(earlier) || earlier < 0 || earlier > size)
      throw new RangeError(`Cannot prove a beginning because the tree has ${size} leaves: got ${earlier}`)
    return earlier === 0 ? [] : this.#beginning(earlier, { start: 0, size, whole: true })
  }

  #part(start: number, size: number): string {
    const height = Math.log2(size)
    if (Number.isInteger(height) && start % size === 0) return this.#complete[height]?.[start / size] ?? EMPTY_ROOT
    const split = splitOf(size)
    return nodeHash(this.#part(start, split), this.#part(start + split, size - split))
  }

  #path(index: number, { start, size }: { start: number; size: number }): string[] {
    if (size === 1) return []
    const split = splitOf(size)
    const [left, right] = [
      { start, size: split },
      { start: start + split, size: size - split },
    ]
    return index < split
      ? [...this.#path(index, left), this.#part(right.start, right.size)]
      : [...this.#path(index - split, right), this.#part(left.start, left.size)]
  }

  /** SUBPROOF of RFC 6962, section 2.1.2; `whole` while the earlier tree is one whose hash the reader holds. */
  #beginning(earlier: number, { start, size, whole }: { start: number; size: number; whole: boolean }): string[] {
    if (earlier === size) return whole ? [] : [this.#part(start, size)]
    const split = splitOf(size)
    if (earlier <= split)
      return [...this.#beginning(earlier, { start, size: split, whole }), this.#part(start + split, size - split)]
    return [
      ...this.#beginning(earlier - split, { start: start + split, size: size - split, whole: false }),
      this.#part(start, split),
    ]
  }

  #within(size: number): void {
    if (!Number.isSafeInteger(size) || size < 0 || size > this.size)
      throw new RangeError(`Cannot look at a tree of that size because it has ${this.size} leaves: got ${size}`)
  }
}

/** The largest power of two below a size: where RFC 6962 splits a tree. */
function splitOf(size: number): number {
  let split = 1
  while (split * 2 < size) split *= 2
  return split
}
