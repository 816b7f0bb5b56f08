/** Measured on a plain machine, to tell a long run from a short one: reading a cell, comparing two at a locus, writing a pair, reading a pair. */
const CELLS_PER_MS = 7000
const COMPARED_PER_MS = 1.6e7
const PAIRS_PER_MS = 8000
const PAIRS_READ_PER_MS = 35_000

/**
 * About how long allele differences take, in milliseconds, from input that isn't checked yet.
 *
 * @param input anything
 * @source none: it computes nothing of the trade
 * @example
 * alleleCostMs({ profiles: 'none' }) // => 0
 */
export function alleleCostMs(input: unknown): number {
  const profiles = listIn(input, 'profiles')
  const [rows, loci] = [profiles.length, listIn(profiles[0], 'alleles').length]
  return (rows * loci) / CELLS_PER_MS + (rows * rows * loci) / COMPARED_PER_MS + (rows * rows) / PAIRS_PER_MS
}

/**
 * About how long a tree takes, in milliseconds, from input that isn't checked yet.
 *
 * @param input anything
 * @source none: it computes nothing of the trade
 * @example
 * treeCostMs(null) // => 0
 */
export function treeCostMs(input: unknown): number {
  return listIn(input, 'matrix').length ** 2 / PAIRS_READ_PER_MS
}

function listIn(value: unknown, name: string): readonly unknown[] {
  const list: unknown = typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined
  return Array.isArray(list) ? list : []
}
