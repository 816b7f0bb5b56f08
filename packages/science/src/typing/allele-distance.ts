import * as z from 'zod'
import { defineCalculation, type RunOptions } from '../catalogue/descriptor.ts'
import { field, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import type { ClassedLocus } from './bit-planes.ts'
import { alleleCostMs } from './cost.ts'
import { MISSING, profileDistances } from './profile-distances.ts'
import { everyElement, takenAsIs } from './taken-as-is.ts'

export type Allele = number | string | null

export interface AlleleProfile {
  id: string
  alleles: Allele[]
}

export interface AlleleDistanceInput {
  profiles: AlleleProfile[]
  missing: 'pairwise' | 'complete'
}

export interface AlleleDistance {
  ids: string[]
  matrix: (number | null)[][]
  comparedLoci: number[][]
  identicalPairs: { a: string; b: string }[]
  identicalPairCount: number
  loci: number
}

/** A list of more identical pairs is told by its number. */
const MOST_PAIRS = 10_000

/**
 * How many loci differ between isolates: for the seven loci of a sequence type as for thousands of a core genome.
 * Wanted to see whether a patient's isolate and a building's are as close as isolates of one source tend to be.
 *
 * distance = loci at which both alleles are known and not the same. An allele is a name: 7 and "7" are the same, 7 and 8 as far apart as
 * 7 and 700. pairwise leaves a locus out of the pairs in which it is missing; complete leaves out every locus missing anywhere.
 *
 * Special cases: null where two have no locus in common; a missing allele is null or an empty text, never a number.
 *
 * @param input profiles (id, alleles in the same order of loci), and what to do about missing ones
 * @param options told how far it is
 * @throws RangeError when profiles differ in length
 * @source maiden-1998
 * @example
 * alleleDistance({ profiles: [{ id: 'a', alleles: [1, 4, 3] }, { id: 'b', alleles: [1, 4, null] }, { id: 'c', alleles: [2, 4, 9] }], missing: 'pairwise' }).matrix[0] // => [0, 0, 2]
 */
export function alleleDistance({ profiles, missing }: AlleleDistanceInput, options: RunOptions = {}): AlleleDistance {
  const loci = profiles[0]?.alleles.length ?? 0
  const odd = profiles.find(({ alleles }) => alleles.length !== loci)
  if (odd !== undefined)
    throw new RangeError(
      `Cannot compare profiles because all must have ${loci} loci: got ${odd.alleles.length} for ${odd.id}`,
    )
  const all = allelesAsNumbers(profiles, loci)
  const used = missing === 'complete' ? all.filter(({ classOf }) => !classOf.includes(MISSING)) : all
  const ids = profiles.map(({ id }) => id)
  const matrices = profileDistances(used, { profiles: ids.length, progress: options.progress })
  return { ids, ...matrices, ...identical(ids, matrices.matrix), loci: used.length }
}

/** So many neighbouring loci are read from a profile before the next, which lies elsewhere in memory. */
const LOCI_AT_ONCE = 16

/** Alleles of each locus as 0, 1, 2 … in the order met, −1 where missing. */
function allelesAsNumbers(profiles: readonly AlleleProfile[], loci: number): ClassedLocus[] {
  const read = Array.from({ length: loci }, () => ({
    classOf: new Int32Array(profiles.length).fill(MISSING),
    known: new Map<string | number, number>(),
  }))
  for (let first = 0; first < loci; first += LOCI_AT_ONCE) {
    const some = read.slice(first, first + LOCI_AT_ONCE)
    for (const [row, { alleles }] of profiles.entries())
      for (let i = 0; i < some.length; i++) {
        const name = nameOf(alleles[first + i] ?? '')
        const locus = some[i]
        if (name !== '' && locus !== undefined) locus.classOf[row] = numberOf(name, locus.known)
      }
  }
  return read.map(({ classOf, known }) => ({ classOf, classes: known.size }))
}

/** A text that is how a number is written is that number. */
function nameOf(allele: string | number): string | number {
  if (typeof allele === 'number') return allele
  const text = allele.trim()
  return text !== '' && String(Number(text)) === text ? Number(text) : text
}

function numberOf(name: string | number, known: Map<string | number, number>): number {
  const before = known.get(name)
  if (before !== undefined) return before
  known.set(name, known.size)
  return known.size - 1
}

function identical(ids: readonly string[], matrix: AlleleDistance['matrix']) {
  const identicalPairs: AlleleDistance['identicalPairs'] = []
  let identicalPairCount = 0
  for (const [a, row] of matrix.entries())
    for (let b = a + 1; b < row.length; b++) {
      if (row[b] !== 0) continue
      identicalPairCount += 1
      if (identicalPairCount <= MOST_PAIRS) identicalPairs.push({ a: ids[a] ?? '', b: ids[b] ?? '' })
    }
  return { identicalPairs, identicalPairCount }
}

const MOST_PROFILES = 5000
const MOST_LOCI = 10_000
const MOST_TOLD = 20
const LONGEST_NAME = 100

function isAllele(value: unknown): boolean {
  return typeof value === 'string' ? value.length <= LONGEST_NAME : isDistance(value)
}

function isDistance(value: unknown): boolean {
  return value === null || Number.isFinite(value)
}

const allele = z.union([z.number(), z.string().max(LONGEST_NAME), z.null()])
const alleles = takenAsIs(
  field(z.array(allele).min(1).max(MOST_LOCI), {
    what: 'alleles, in the same order of loci for every isolate; null where missing',
  }),
  (list) => list.length > 0 && list.length <= MOST_LOCI && everyElement(list, isAllele),
)

const input = z
  .strictObject({
    profiles: field(
      z
        .array(
          z.strictObject({
            id: field(z.string().min(1).max(200), { what: 'name of the isolate' }),
            alleles,
          }),
        )
        .min(1)
        .max(MOST_PROFILES),
      { what: 'isolates' },
    ),
    missing: field(z.enum(['pairwise', 'complete']).default('pairwise'), {
      what: 'how a missing locus counts: pairwise leaves it out of the pairs in which it is missing, complete out of all',
    }),
  })
  .superRefine(({ profiles }, context) => {
    const loci = profiles[0]?.alleles.length ?? 0
    const seen = new Set<string>()
    const problems = profiles.flatMap(({ id, alleles }, row) => [
      ...(seen.size === seen.add(id).size ? [refuse(['profiles', row, 'id'], 'a name no other isolate has')] : []),
      ...(alleles.length === loci
        ? []
        : [
            refuse(['profiles', row, 'alleles'], {
              expected: `${loci} alleles, as the first has`,
              received: String(alleles.length),
            }),
          ]),
    ])
    for (const problem of problems.slice(0, MOST_TOLD)) context.addIssue(problem)
  })

const EXAMPLE = {
  profiles: [
    { id: 'patient', alleles: [1, 4, 3, 1, 1, 1, 1] },
    { id: 'shower 214', alleles: [1, 4, 3, 1, 1, 1, 1] },
    { id: 'basin 118', alleles: [1, 4, 3, 1, 1, 1, 6] },
    { id: 'heater drain', alleles: [4, 8, 11, null, 42, 12, 2] },
  ],
  missing: 'pairwise' as const,
}

export const alleleDistanceCalculation = defineCalculation({
  id: 'allele-distance',
  title: 'Allele differences between isolates',
  purpose:
    'At how many loci isolates differ, from sequence types or core-genome profiles, with missing loci left out and counted.',
  formula: {
    text: 'd(a, b) = loci known in both at which the alleles differ',
    symbols: { d: 'matrix', a: 'profiles[]', b: 'profiles[]' },
  },
  input,
  output: z.object({
    ids: field(z.array(z.string()), { what: 'names, in the order of the matrix' }),
    matrix: field(z.array(takenAsIs(z.array(z.number().nullable()), (row) => everyElement(row, isDistance))), {
      what: 'loci that differ, rows and columns in the order of the names; null where two have no locus in common',
    }),
    comparedLoci: field(z.array(takenAsIs(z.array(z.number()), (row) => everyElement(row, Number.isFinite))), {
      what: 'loci known in both, in the same order',
    }),
    identicalPairs: field(
      z.array(
        z.object({
          a: field(z.string(), { what: 'one isolate' }),
          b: field(z.string(), { what: 'the other' }),
        }),
      ),
      { what: `pairs without a difference, the first ${MOST_PAIRS} of them` },
    ),
    identicalPairCount: field(z.number(), { what: 'how many pairs are without a difference' }),
    loci: field(z.number(), { what: 'loci used' }),
  }),
  sources: sourcesOf('maiden-1998', 'petzold-2017', 'schjoerring-2017'),
  cautions: [
    'No number of differences proves or rules out a source. Isolates of one outbreak have been 40 alleles apart, and unrelated ones of a common type less than five.',
    'Identical over few compared loci means little: read the two matrices together.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      ids: ['patient', 'shower 214', 'basin 118', 'heater drain'],
      matrix: [
        [0, 0, 1, 6],
        [0, 0, 1, 6],
        [1, 1, 0, 6],
        [6, 6, 6, 0],
      ],
      comparedLoci: [
        [7, 7, 7, 6],
        [7, 7, 7, 6],
        [7, 7, 7, 6],
        [6, 6, 6, 6],
      ],
      identicalPairs: [{ a: 'patient', b: 'shower 214' }],
      identicalPairCount: 1,
      loci: 7,
    },
  },
  run: alleleDistance,
  costMs: alleleCostMs,
})
