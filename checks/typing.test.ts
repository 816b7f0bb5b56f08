// Sequence types of Legionella pneumophila (flaA, pilE, asd, mip, mompS, proA, neuA) as in the profile table of CDC's in-silico typing
// repository, 2020-06-24 (Apache-2.0). Known by: seen. Their distances and the length of their tree: igraph 1.3.5, computed.
// Hunter and Gaston's index: 100 strains in four types, the first with 40, give 0.7071 (public page of a typing tool, seen; the counts
// 40, 30, 20, 10 reproduce it). Limits after Grundmann et al., ±2 standard errors: R, computed.
// Invented profiles with missing loci: NumPy and SciPy, checks/oracles/typing.py, computed. All counts are whole and exact.
import { alleleDistance } from '@rillmark/science/typing/allele-distance.ts'
import { discriminationIndex } from '@rillmark/science/typing/discrimination-index.ts'
import { minimumSpanningTree } from '@rillmark/science/typing/minimum-spanning-tree.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/typing.json' with { type: 'json' }

const TYPES: Readonly<Record<string, number[]>> = {
  1: [1, 4, 3, 1, 1, 1, 1],
  7: [1, 4, 3, 1, 1, 1, 6],
  8: [1, 4, 3, 1, 1, 1, 9],
  224: [4, 8, 11, 16, 42, 12, 2],
  23: [2, 3, 9, 10, 2, 1, 6],
  36: [3, 4, 1, 1, 14, 9, 1],
  37: [3, 4, 1, 1, 14, 9, 11],
  42: [4, 7, 11, 3, 11, 12, 9],
  47: [5, 10, 22, 15, 6, 2, 6],
  62: [8, 10, 3, 15, 18, 1, 6],
  82: [5, 1, 22, 10, 6, 10, 6],
  154: [11, 14, 16, 16, 15, 13, 2],
  187: [3, 10, 1, 28, 14, 9, 3],
  213: [2, 19, 5, 10, 18, 1, 2],
  222: [2, 19, 5, 10, 18, 1, 10],
  345: [6, 10, 19, 3, 19, 4, 11],
  578: [6, 10, 15, 13, 9, 14, 6],
  752: [22, 4, 3, 1, 1, 1, 1],
}
const types = alleleDistance({
  profiles: Object.entries(TYPES).map(([id, alleles]) => ({ id, alleles })),
  missing: 'pairwise',
})
const between = (a: string, b: string) => types.matrix[types.ids.indexOf(a)]?.[types.ids.indexOf(b)]

test.each([
  ['1', '7', 1],
  ['1', '8', 1],
  ['7', '8', 1],
  ['36', '37', 1],
  ['213', '222', 1],
  ['1', '752', 1],
  ['1', '224', 7],
  ['7', '752', 2],
  ['8', '752', 2],
  ['224', '42', 4],
  ['23', '213', 4],
  ['36', '187', 3],
  ['47', '82', 3],
  ['62', '578', 5],
])('ST%s and ST%s are %i loci apart (profiles seen, distance by igraph computed)', (a, b, distance) => {
  expect(between(a, b)).toBe(distance)
  expect(between(b, a)).toBe(distance)
})

test('the tree of the types is 57 long (igraph 1.3.5, computed)', () => {
  const { total, edges, parts } = minimumSpanningTree(types)
  expect({ total, parts, weights: edges.map(({ distance }) => distance).join(' ') }).toEqual({
    total: 57,
    parts: 1,
    weights: '1 1 1 1 1 3 3 4 4 4 4 4 5 5 5 5 6',
  })
})

test('a toy matrix of cases and environmental isolates: length 71 (igraph, computed)', () => {
  const rows = `0 0 2 1 40 3 50 50|0 0 2 1 40 3 50 50|2 2 0 3 42 5 52 52|1 1 3 0 41 2 51 51|40 40 42 41 0 43 14 26|3 3 5 2 43 0 53 53|
50 50 52 51 14 53 0 12|50 50 52 51 26 53 12 0`
  const matrix = rows.split('|').map((row) => row.trim().split(' ').map(Number))
  const { total, edges } = minimumSpanningTree({ ids: ['C1', 'C2', 'C3', 'E1', 'E2', 'E3', 'E4', 'E5'], matrix })
  expect([total, ...edges.map(({ distance }) => distance)]).toEqual([71, 0, 1, 2, 2, 12, 14, 40])
})

test.each(oracle.studies.map((study, number) => ({ number, from: `computed: ${oracle.tool}`, ...study })))(
  'invented study $number ($from)',
  (study) => {
    const profiles = study.profiles.map((alleles, i) => ({ id: `i${i}`, alleles }))
    const { ids, matrix, comparedLoci } = alleleDistance({ profiles, missing: 'pairwise' })
    expect(matrix).toEqual(study.distances)
    const offDiagonal = comparedLoci.map((row, i) => row.map((count, j) => (i === j ? 0 : count)))
    expect(offDiagonal).toEqual(study.compared)
    expect(minimumSpanningTree({ ids, matrix }).total).toBe(study.treeTotal)
  },
)

test.each(oracle.indices)('the index of $counts, by listing every pair (Python, computed)', ({ counts, index }) => {
  expect(discriminationIndex({ counts, level: 0.95 }).index).toBeCloseTo(index, 12)
})

test.each([
  // counts, index, ± 2 standard errors, limits at 95 %
  [[40, 30, 20, 10], 0.7070707071, [0.6670707071, 0.7470707071], [0.6678707071, 0.7462707071]],
  [[10, 10, 10], 0.6896551724, [0.6896551724, 0.6896551724], [0.6896551724, 0.6896551724]],
  [Array.from({ length: 20 }, () => 1), 1, [1, 1], [1, 1]],
  [[5, 3, 2], 0.6888888889, [0.5309015476, 0.8468762302], [0.5340612944, 0.8437164833]],
  [[12, 1, 1, 1, 1, 1], 0.5147058824, [0.2286795625, 0.8007322022], [0.2344000889, 0.7950116758]],
  [[30, 5, 4, 3, 2, 1, 1, 1, 1, 1, 1], 0.6285714286, [0.4784951813, 0.7786476759], [0.4814967062, 0.7756461509]],
])('the index of %o (R 4.2.2, computed; 0.7071 of the first also seen)', (counts, index, twoErrors, limits) => {
  // R used 1.96 standard errors, which hold this share of a normal distribution.
  const got = discriminationIndex({ counts, level: 0.9500042097035593 })
  expect(got.index).toBeCloseTo(index, 9)
  expect(got.twoErrorsInterval.lower).toBeCloseTo(twoErrors[0] ?? Number.NaN, 9)
  expect(got.twoErrorsInterval.upper).toBeCloseTo(twoErrors[1] ?? Number.NaN, 9)
  expect(got.interval.lower).toBeCloseTo(limits[0] ?? Number.NaN, 9)
  expect(got.interval.upper).toBeCloseTo(limits[1] ?? Number.NaN, 9)
})
