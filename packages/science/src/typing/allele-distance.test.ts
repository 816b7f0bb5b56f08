import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { type Allele, alleleDistance } from './allele-distance.ts'
import { minimumSpanningTree } from './minimum-spanning-tree.ts'

const allele = fc.oneof(fc.integer({ min: 1, max: 300 }), fc.constant(null), fc.constantFrom('new', '7', ''))
const studies = fc
  .record({ isolates: fc.integer({ min: 1, max: 40 }), loci: fc.integer({ min: 1, max: 100 }) })
  .chain(({ isolates, loci }) =>
    fc.array(fc.array(allele, { minLength: loci, maxLength: loci }), { minLength: isolates, maxLength: isolates }),
  )
const profilesOf = (rows: Allele[][]) => rows.map((alleles, i) => ({ id: `isolate ${i}`, alleles }))
const run = (rows: Allele[][]) => alleleDistance({ profiles: profilesOf(rows), missing: 'pairwise' })

test('bit planes count what a plain comparison counts', () => {
  fc.assert(
    fc.property(studies, (rows) => {
      const { matrix, comparedLoci } = run(rows)
      for (const [a, one] of rows.entries())
        for (const [b, other] of rows.entries()) {
          const known = one.map((_, l) => [one[l] ?? '', other[l] ?? '']).filter((pair) => !pair.includes(''))
          const differing = known.filter(([x, y]) => String(x) !== String(y)).length
          expect(comparedLoci[a]?.[b]).toBe(known.length)
          expect(matrix[a]?.[b]).toBe(a === b ? 0 : known.length === 0 ? null : differing)
        }
    }),
    { numRuns: 40 },
  )
})

test('alleles are names: renamed everywhere alike, and loci in another order, distances stay', () => {
  fc.assert(
    fc.property(studies, (rows) => {
      const renamed = rows.map((alleles) =>
        alleles.map((each) => (each === null || each === '' ? null : `n${each}`)).toReversed(),
      )
      expect(run(renamed).matrix).toEqual(run(rows).matrix)
    }),
    { numRuns: 40 },
  )
})

test('complete deletion leaves out loci missing in any; a distance over no locus is null', () => {
  const profiles = profilesOf([
    [1, 2, null],
    [1, 3, 4],
    [null, null, 9],
  ])
  expect(alleleDistance({ profiles, missing: 'complete' })).toMatchObject({
    loci: 0,
    matrix: [
      [0, null, null],
      [null, 0, null],
      [null, null, 0],
    ],
  })
  expect(alleleDistance({ profiles, missing: 'pairwise' })).toMatchObject({
    matrix: [
      [0, 1, null],
      [1, 0, 1],
      [null, 1, 0],
    ],
  })
})

test('all alike: pairs are counted, and a list of very many is cut', () => {
  const { identicalPairs, identicalPairCount } = run(Array.from({ length: 200 }, () => [1, 2, 3]))
  expect(identicalPairCount).toBe((200 * 199) / 2)
  expect(identicalPairs).toHaveLength(10_000)
})

test('the tree joins all with no more than a chain or a star of them would take', () => {
  fc.assert(
    fc.property(studies, (rows) => {
      const whole = rows.map((alleles) => alleles.map((each) => each ?? 0))
      const { ids, matrix } = run(whole)
      const { edges, total, parts } = minimumSpanningTree({ ids, matrix })
      const at = (a: number, b: number) => matrix[a]?.[b] ?? Number.POSITIVE_INFINITY
      const chain = ids.reduce((sum, _, i) => (i === 0 ? 0 : sum + at(i - 1, i)), 0)
      const star = ids.reduce((sum, _, i) => sum + at(0, i), 0)
      expect(edges).toHaveLength(ids.length - parts)
      expect(Number.isFinite(chain) ? total <= Math.min(chain, star) : parts >= 1).toBe(true)
    }),
    { numRuns: 40 },
  )
})

test('isolates without a distance to the others make parts of their own', () => {
  const matrix = [
    [0, 1, null],
    [1, 0, null],
    [null, null, 0],
  ]
  expect(minimumSpanningTree({ ids: ['a', 'b', 'c'], matrix })).toEqual({
    edges: [{ a: 'a', b: 'b', distance: 1 }],
    total: 1,
    parts: 2,
  })
})

test('profiles and matrices that cannot be are refused with the field', () => {
  const profiles = [
    { id: 'a', alleles: [1, 2] },
    { id: 'a', alleles: [1] },
  ]
  expect(runCalculation({ id: 'allele-distance', input: { profiles } })).toMatchObject({
    issues: [
      { path: 'profiles.1.id' },
      { path: 'profiles.1.alleles', expected: '2 alleles, as the first has', received: '1' },
    ],
  })
  const tree = (matrix: unknown) => runCalculation({ id: 'minimum-spanning-tree', input: { ids: ['a', 'b'], matrix } })
  expect(
    tree([
      [0, 1],
      [2, 0],
    ]),
  ).toMatchObject({ issues: [{ path: 'matrix.1.0' }] })
  expect(tree([[0, 1]])).toMatchObject({ issues: [{ path: 'matrix', expected: '2 rows', received: '1' }] })
  expect(
    tree([
      [1, 1],
      [1, 0],
    ]),
  ).toMatchObject({ issues: [{ path: 'matrix.0.0' }] })
  expect(runCalculation({ id: 'discrimination-index', input: { counts: [1, 0] } })).toMatchObject({
    issues: [{ path: 'counts', received: '1' }],
  })
})
