import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, LARGEST, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { treeCostMs } from './cost.ts'
import { everyElement, takenAsIs } from './taken-as-is.ts'

/** null where two have nothing to compare. */
export type DistanceMatrix = (number | null)[][]

export interface SpanningTree {
  edges: { a: string; b: string; distance: number }[]
  total: number
  parts: number
}

/**
 * The tree that joins all isolates with the least sum of distances. Wanted to draw who is closest to whom without drawing every pair.
 *
 * Prim's method from the first isolate; of equally short edges the one met first in the order given. The total is unique; where
 * distances tie the edges are one choice of several.
 *
 * Special cases: one isolate has no edge; pairs without a distance are not joined, so there may be several parts.
 *
 * @param input ids, and the symmetric matrix of distances in the same order (rows = columns = ids)
 * @throws RangeError when the matrix hasn't a row for each id
 * @source prim-1957
 * @example
 * minimumSpanningTree({ ids: ['a', 'b', 'c'], matrix: [[0, 1, 9], [1, 0, 2], [9, 2, 0]] }).total // => 3
 */
export function minimumSpanningTree({ ids, matrix }: { ids: string[]; matrix: DistanceMatrix }): SpanningTree {
  if (matrix.length !== ids.length)
    throw new RangeError(
      `Cannot join isolates because each needs a row of distances: got ${matrix.length} for ${ids.length}`,
    )
  const waiting = new Set(ids.keys())
  const nearest = ids.map(() => ({ distance: Number.POSITIVE_INFINITY, from: -1 }))
  const edges: SpanningTree['edges'] = []
  let parts = 0
  while (waiting.size > 0) {
    const next = closest(waiting, nearest)
    waiting.delete(next)
    const link = nearest[next]
    if (link === undefined || link.from < 0) parts += 1
    else edges.push({ a: ids[link.from] ?? '', b: ids[next] ?? '', distance: link.distance })
    const row = matrix[next] ?? []
    for (const other of waiting) {
      const distance = row[other] ?? Number.POSITIVE_INFINITY
      const known = nearest[other]
      if (known !== undefined && distance < known.distance) nearest[other] = { distance, from: next }
    }
  }
  edges.sort((one, other) => one.distance - other.distance)
  return { edges, total: edges.reduce((sum, { distance }) => sum + distance, 0), parts }
}

function closest(waiting: ReadonlySet<number>, nearest: readonly { distance: number }[]): number {
  let best = -1
  let least = Number.POSITIVE_INFINITY
  for (const each of waiting) {
    const distance = nearest[each]?.distance ?? Number.POSITIVE_INFINITY
    if (best < 0 || distance < least) {
      best = each
      least = distance
    }
  }
  return best
}

const MOST_ISOLATES = 5000
const MOST_TOLD = 20

const isDistance = (value: unknown): boolean =>
  value === null || (typeof value === 'number' && value >= 0 && value <= LARGEST)
const row = takenAsIs(z.array(measure.amount().nullable()), (list) => everyElement(list, isDistance))

const input = z
  .strictObject({
    ids: field(z.array(z.string().min(1).max(200)).min(1).max(MOST_ISOLATES), { what: 'names of the isolates' }),
    matrix: field(z.array(row).max(MOST_ISOLATES), {
      what: 'distances, rows and columns in the order of the names; null where two have nothing to compare',
    }),
  })
  .superRefine(({ ids, matrix }, context) => {
    if (new Set(ids).size < ids.length)
      context.addIssue(refuse(['ids'], { expected: 'names that differ', received: repeated(ids) }))
    if (matrix.length !== ids.length)
      return context.addIssue(refuse(['matrix'], { expected: `${ids.length} rows`, received: String(matrix.length) }))
    for (const problem of matrixProblems(matrix)) context.addIssue(problem)
  })

function repeated(ids: readonly string[]): string {
  const seen = new Set<string>()
  return ids.find((id) => seen.size === seen.add(id).size) ?? ''
}

function matrixProblems(matrix: DistanceMatrix) {
  const problems: ReturnType<typeof refuse>[] = []
  for (const [i, row] of matrix.entries()) {
    if (row.length !== matrix.length)
      problems.push(refuse(['matrix', i], { expected: `${matrix.length} distances`, received: String(row.length) }))
    else if ((row[i] ?? 0) !== 0) problems.push(refuse(['matrix', i, i], '0: nothing is away from itself'))
    for (let j = 0; j < i && problems.length < MOST_TOLD; j++)
      if (row[j] !== matrix[j]?.[i])
        problems.push(refuse(['matrix', i, j], `${String(matrix[j]?.[i])}, as in row ${j}`))
    if (problems.length >= MOST_TOLD) return problems
  }
  return problems
}

const EXAMPLE = {
  ids: ['patient 1', 'patient 2', 'shower 214', 'heater drain'],
  matrix: [
    [0, 2, 1, 14],
    [2, 0, 3, 15],
    [1, 3, 0, 13],
    [14, 15, 13, 0],
  ],
}

export const minimumSpanningTreeCalculation = defineCalculation({
  id: 'minimum-spanning-tree',
  title: 'Tree of isolates',
  purpose: 'Which isolates lie next to which, as the shortest tree that joins them all.',
  formula: {
    text: 'the tree over all isolates with the least Σ d',
    symbols: { d: 'edges[].distance' },
  },
  input,
  output: z.object({
    edges: field(
      z.array(
        z.object({
          a: field(z.string(), { what: 'one isolate' }),
          b: field(z.string(), { what: 'the other' }),
          distance: field(z.number(), { what: 'how far apart they are' }),
        }),
      ),
      { what: 'links of the tree, shortest first; where distances tie, one choice of several' },
    ),
    total: field(z.number(), { what: 'sum of the distances; the same for every choice' }),
    parts: field(z.number(), { what: 'trees: more than 1 where some isolates have no distance to the others' }),
  }),
  sources: sourcesOf('prim-1957'),
  cautions: [
    'Next to each other in a tree is not infected by each other. A tree shows no direction and no time, and hides ties.',
  ],
  example: {
    input: EXAMPLE,
    output: {
      edges: [
        { a: 'patient 1', b: 'shower 214', distance: 1 },
        { a: 'patient 1', b: 'patient 2', distance: 2 },
        { a: 'shower 214', b: 'heater drain', distance: 13 },
      ],
      total: 16,
      parts: 1,
    },
  },
  run: minimumSpanningTree,
  costMs: treeCostMs,
})
